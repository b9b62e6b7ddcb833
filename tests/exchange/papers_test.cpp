#include "exchange/papers.h"

#include "support/scratch.h"
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

using namespace gk;
using exchange::Paper;
using exchange::unpacked;

namespace {

std::string mapOf(const std::string& name) {
  nlohmann::json map;
  map[name] = nlohmann::json::binary({1, 2, 3});
  std::string bytes;
  nlohmann::json::to_cbor(map, bytes);
  return bytes;
}

} // namespace

TEST_CASE("Papers come out as they went in", "[case-311]") {
  std::string every;
  for (int i = 0; i < 256; ++i)
    every += static_cast<char>(i);
  const std::vector<Paper> papers{{"a.csv", ""}, {"b-2.pdf", every}};
  CHECK(unpacked(packed(papers)).value() == papers);
  CHECK(unpacked(exchange::packed({})).value().empty());
}

TEST_CASE("A name that leads out of its folder is not taken", "[case-311]") {
  CHECK(unpacked(mapOf("a.csv")).value().size() == 1);
  for (const auto* name : {"../a", "/etc/a", "a/b", "a\\b", ".a", "..", "", "A", "a b", "a\n"}) {
    INFO(name);
    CHECK(unpacked(mapOf(name)).error().code == base::ErrorCode::papersUnreadable);
  }
  CHECK(unpacked(mapOf(std::string(121, 'a'))).error().code == base::ErrorCode::papersUnreadable);
}

TEST_CASE("What is no map of papers is refused", "[case-311]") {
  const auto good = mapOf("a.csv");
  for (std::size_t size = 0; size < good.size(); ++size)
    CHECK_FALSE(unpacked(good.substr(0, size)));
  CHECK_FALSE(unpacked(good + "x"));
  CHECK_FALSE(unpacked("\x83\x01\x02\x03"));
  CHECK_FALSE(unpacked("\xa1\x61\x61\x01")); // {"a": 1}
}

TEST_CASE("Papers within papers are not followed down, and no name comes twice", "[case-382]") {
  const auto nested = [](const char* opening) {
    std::string bytes = "\xa1\x61\x61";
    for (int i = 0; i < 5'000'000; ++i)
      bytes += opening;
    return bytes;
  };
  for (const auto* opening : {"\x81", "\xa1\x61\x61", "\x9f", "\xbf\x61\x61"})
    CHECK_FALSE(unpacked(nested(opening)));
  const std::string twice("\xa2\x61\x61\x41\x01\x61\x61\x41\x02", 9);
  CHECK_FALSE(unpacked(twice));
  // A length that is not there is not made room for.
  CHECK_FALSE(unpacked("\xa1\x61\x61\x5b\x7f\xff\xff\xff\xff\xff\xff\xff"));
}

TEST_CASE("Papers are opened into a folder that was not there, all of them or none", "[case-382]") {
  const test::Scratch scratch;
  const std::vector<Paper> papers{{"a.csv", "1"}, {"b.csv", "2"}};
  CHECK(exchange::writeOut(papers, scratch / "out").value() == scratch / "out");
  CHECK(exchange::writeOut(papers, scratch / "out").value() == scratch / "out-2");
  CHECK(base::readFile(scratch / "out-2" / "b.csv").value() == "2");
  // A link that leads nowhere yet is not gone through.
  std::filesystem::create_directory_symlink(scratch / "elsewhere", scratch / "link");
  CHECK(exchange::writeOut(papers, scratch / "link").value() == scratch / "link-2");
  const auto failed = exchange::writeOut({{"a.csv", "1"}, {"a.csv", "2"}}, scratch / "half");
  REQUIRE_FALSE(failed);
  CHECK_FALSE(std::filesystem::exists(scratch / "half"));
}
