#pragma once

#include "base/files/files.h"
#include "base/text/text.h"

#include <catch2/catch.hpp>

#include <string>

namespace gk::test {

/// Holds what this run came to against docs/methods.md, section 12: the cell "Now" of the line that
/// names the test that runs begins with these words. So the page cannot go stale.
inline void methodsSay(const std::string& words) {
  const auto page = base::readFile(base::Path(GK_SOURCE_DIR) / "docs/methods.md");
  REQUIRE(page);
  const auto named = page->find("| \"" + Catch::getResultCapture().getCurrentTestName() + "\" |");
  REQUIRE(named != std::string::npos);
  const auto cell = page->rfind('|', named - 1) + 2;
  CHECK(page->substr(cell, words.size()) == words);
}

} // namespace gk::test
