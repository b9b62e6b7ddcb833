#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <string>

namespace gk::test {

/// Whether to go on with a check that a program from outside makes; `isThere` says whether it is on
/// this machine. Where it is not, the test fails, since a check that did not run shows nothing,
/// unless `tests/run --without-outside` was said: then none runs, whatever is there.
inline bool runsOutside(const std::string& program, bool isThere) {
  if (std::getenv("GK_WITHOUT_OUTSIDE") != nullptr) {
    WARN("Not checked by " << program << ": --without-outside");
    return false;
  }
  if (!isThere)
    FAIL(program << " is not on this machine. tests/run installs it; tests/run --without-outside "
                    "does without it and says so.");
  return true;
}

/// The same for what no Debian package brings and tests/run fetches where it can, saying at its
/// end when it could not: `GK_FHIR` is set where it did.
inline bool runsFhirValidator(bool isThere) {
  if (std::getenv("GK_FHIR") != nullptr) return runsOutside("HL7's structure definitions", isThere);
  if (isThere && std::getenv("GK_WITHOUT_OUTSIDE") == nullptr) return true;
  WARN("Not checked by HL7's structure definitions: npm ci --prefix .ci/fhir installs them.");
  return false;
}

} // namespace gk::test
