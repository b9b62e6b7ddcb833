#include "office/run.h"

#include <cstdlib>
#include <iostream>
#include <vector>

int main(int count, char** words) {
  gk::base::SystemClock clock;
  gk::base::SystemRandom random;
  const std::vector<std::string> args(words + (count > 0 ? 1 : 0), words + count);
  const auto environment = [](const std::string& name) -> std::optional<std::string> {
    const char* value = std::getenv(name.c_str()); // one thread
    if (value == nullptr) return std::nullopt;
    return value;
  };
  return gk::office::run(
      args, {clock, random, std::cin, std::cout, std::cerr, environment, gk::base::thisMachine()});
}
