#include "exchange/papers.h"

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
