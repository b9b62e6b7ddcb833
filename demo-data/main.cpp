#include "demo.h"

#include <iostream>
#include <span>
#include <vector>

namespace {

using gk::demo::Replace;
using gk::demo::Until;

constexpr std::string_view usage =
    "Makes the invented logbook of Larkmere County.\n"
    "\n"
    "  groovekeeper-demo --headless DIR   both autumns, closed out, with papers in DIR/reports\n"
    "  groovekeeper-demo --part-day DIR   stops in the middle of a clinic day, to be gone on with\n"
    "  groovekeeper-demo --help           this text\n"
    "\n"
    "  --fresh   replace DIR/demo.gkbook whatever it is; otherwise only a demo logbook goes\n"
    "\n"
    "Its passphrase is in DIR/passphrase.txt. Exit: 0 done, 1 not done, 2 a wrong command.\n";

int wrong(std::string_view why) {
  std::cerr << "groovekeeper-demo: " << why << "\n\n" << usage;
  return 2;
}

int failed(const gk::base::Error& error) {
  std::cerr << "groovekeeper-demo: " << gk::base::errorName(error.code) << ": " << error.detail
            << '\n';
  return 1;
}

int run(const gk::base::Path& folder, Until until, Replace replace) {
  if (const auto built = gk::demo::buildDemo(folder, until, replace); !built)
    return failed(built.error());
  if (until == Until::closed) {
    const auto text = gk::demo::writePapers(folder);
    if (!text) return failed(text.error());
    std::cout << *text;
  }
  std::cout << "The demo logbook is " << (folder / "demo.gkbook").string() << '\n';
  return std::cout.good() ? 0 : 1;
}

} // namespace

int main(int count, char** values) {
  std::vector<std::string_view> words;
  for (const char* value : std::span(values, static_cast<std::size_t>(count)).subspan(1))
    words.emplace_back(value);
  auto replace = Replace::demoOnly;
  std::erase_if(words, [&](std::string_view word) {
    if (word != "--fresh") return false;
    replace = Replace::anything;
    return true;
  });
  if (words.size() == 1 && (words[0] == "--help" || words[0] == "-h")) {
    std::cout << usage;
    return 0;
  }
  if (words.size() != 2) return wrong("say what to make, and the folder to put it in");
  if (words[0] == "--headless") return run(words[1], Until::closed, replace);
  if (words[0] == "--part-day") return run(words[1], Until::partDay, replace);
  return wrong("what is \"" + std::string(words[0]) + "\"?");
}
