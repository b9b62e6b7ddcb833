#include "broken/broken_books.h"
#include "support/scratch.h"

#include <catch2/catch.hpp>

namespace gk::test {

TEST_CASE("A journal's own word on how long a name it holds is not believed", "[case-385]") {
  const Scratch folder;
  const auto path = folder / "a.gkbook";
  writeBook(path);
  const base::Path journal = path.string() + "-journal";
  constexpr std::string_view magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);
  const auto open = [&] {
    return store::openBook(path, store::Access::readWrite, store::Durability::everyAct, someMorning,
                           store::Checkup::whole, firstSchema());
  };
  {
    // Four GiB of a name, in a file of holes that is as long.
    std::ofstream out(journal, std::ios::binary);
    out.seekp(std::streamoff{5} << 30U);
    out << std::string_view("\xff\xff\xff\x00\0\0\0\0", 8) << magic;
  }
  const auto whole = open();
  INFO((whole ? std::string() : whole.error().detail));
  CHECK(whole);
  // A name whose bytes have the high bit, added with a sign and without.
  for (const auto sum :
       {std::string_view("\xff\xff\xff\xd2", 4), std::string_view("\x00\x00\x01\xd2", 4)}) {
    std::ofstream(journal, std::ios::binary)
        << std::string(512, '\0') << "\xe9\xe9" << std::string_view("\0\0\0\2", 4) << sum << magic;
    const auto refused = open();
    REQUIRE_FALSE(refused);
    CHECK(refused.error().detail.find("names other files") != std::string::npos);
  }
}

TEST_CASE("A journal whose mark was half written when the power went is the logbook's own",
          "[case-322]") {
  const Scratch folder;
  const auto path = folder / "a.gkbook";
  writeBook(path);
  const base::Path journal = path.string() + "-journal";
  const std::string magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7");
  const auto opens = [&](const std::string& mark) {
    // SQLite writes the mark over zeros once the rest is on the disk (3.40, syncJournal).
    std::ofstream(journal, std::ios::binary) << mark << std::string(512 - mark.size(), '\0');
    return store::openBook(path, store::Access::readWrite, store::Durability::everyAct, someMorning,
                           store::Checkup::whole, firstSchema())
        .has_value();
  };
  for (std::size_t written = 0; written < magic.size(); ++written) {
    CAPTURE(written);
    CHECK(opens(magic.substr(0, written)));
  }
  CHECK_FALSE(opens("\xd9\xd5\x05 and more"));
  CHECK_FALSE(opens("\x05"));
}

} // namespace gk::test
