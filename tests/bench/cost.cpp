#include "bench/cost.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>

namespace gk::bench {

namespace {

double secondsBy(clockid_t clock) {
  timespec now{};
  clock_gettime(clock, &now);
  return static_cast<double>(now.tv_sec) + static_cast<double>(now.tv_nsec) / 1e9;
}

} // namespace

double processorSeconds() {
  return secondsBy(CLOCK_PROCESS_CPUTIME_ID);
}
double wallSeconds() {
  return secondsBy(CLOCK_MONOTONIC);
}

double medianOf(std::vector<double> values) {
  std::ranges::nth_element(values, values.begin() + std::ssize(values) / 2);
  return values.at(values.size() / 2);
}

double mostMemory() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmHWM:")) return std::stod(line.substr(6)) / 1024;
  return 0;
}

void forgetMemory() {
  std::ofstream("/proc/self/clear_refs") << "5";
}

double exponentOf(double smallSize, double smallCost, double largeSize, double largeCost) {
  return std::log(largeCost / smallCost) / std::log(largeSize / smallSize);
}

} // namespace gk::bench
