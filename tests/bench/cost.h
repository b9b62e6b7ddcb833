#pragma once

#include <cstdint>
#include <ctime>
#include <vector>

namespace gk::bench {

/// Of this process, seconds. What other programs do meanwhile counts little.
double processorSeconds();
/// By the wall, seconds: for what waits for the disk.
double wallSeconds();

template <class Work>
double processorCost(Work work) {
  const auto start = processorSeconds();
  work();
  return processorSeconds() - start;
}
template <class Work>
double wallCost(Work work) {
  const auto start = wallSeconds();
  work();
  return wallSeconds() - start;
}

double medianOf(std::vector<double> values);

/// The most memory that this process held at one moment since the last `forgetMemory`, in MB.
double mostMemory();
void forgetMemory();

/// How fast a cost grows with the size: the slope between two points of a log-log plot.
double exponentOf(double smallSize, double smallCost, double largeSize, double largeCost);

} // namespace gk::bench
