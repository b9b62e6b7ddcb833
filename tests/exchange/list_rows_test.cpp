#include "exchange/lists/list_rows.h"
#include "exchange/lists/list_text.h"

#include "base/text/text.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <ctime>

using namespace gk;
using exchange::readList;

namespace {

std::string textOf(const std::string& bytes) {
  const auto decoded = exchange::decodeList(bytes);
  REQUIRE(decoded);
  CHECK(base::isUtf8(decoded->utf8));
  CHECK_FALSE(base::controlIn(decoded->utf8));
  return decoded->utf8;
}

std::string cellsOf(const std::string& bytes) {
  const auto list = readList(bytes);
  REQUIRE(list);
  std::string all;
  for (const auto& row : list->rows) {
    all += std::to_string(row.line) + ":";
    for (const auto& cell : row.cells)
      all += "[" + cell + "]";
  }
  return all;
}

} // namespace

// The signs of Windows-1252 that Latin-1 does not have, as its published table gives them.
TEST_CASE("Every byte of Windows-1252 is read by the published table", "[case-270]") {
  const std::vector<std::pair<unsigned, std::string>> signs{
      {0x80, "€"}, {0x82, "‚"}, {0x83, "ƒ"}, {0x84, "„"}, {0x85, "…"}, {0x86, "†"}, {0x87, "‡"},
      {0x88, "ˆ"}, {0x89, "‰"}, {0x8A, "Š"}, {0x8B, "‹"}, {0x8C, "Œ"}, {0x8E, "Ž"}, {0x91, "‘"},
      {0x92, "’"}, {0x93, "“"}, {0x94, "”"}, {0x95, "•"}, {0x96, "–"}, {0x97, "—"}, {0x98, "˜"},
      {0x99, "™"}, {0x9A, "š"}, {0x9B, "›"}, {0x9C, "œ"}, {0x9E, "ž"}, {0x9F, "Ÿ"}, {0xA1, "¡"},
      {0xD1, "Ñ"}, {0xE9, "é"}, {0xF1, "ñ"}, {0xFF, "ÿ"}};
  for (const auto& [byte, sign] : signs)
    CHECK(textOf(std::string("a") + static_cast<char>(byte) + "b") == "a" + sign + "b");
  for (const unsigned byte : {0x81U, 0x8DU, 0x8FU, 0x90U, 0x9DU})
    CHECK(textOf(std::string("a") + static_cast<char>(byte)) ==
          "a" + std::string(exchange::unreadSign));
}

TEST_CASE("UTF-8 that was read as other text and saved again is decoded once more, and said",
          "[case-521]") {
  const auto twice = exchange::decodeList("Lucía\nNu\u00C3\u00B1ez,\u00C3\xC2\x81lvarez,Pia\n");
  REQUIRE(twice);
  CHECK(twice->utf8 == "Lucía\nNuñez,Álvarez,Pia\n");
  REQUIRE(twice->notes.size() == 1);
  CHECK(twice->notes[0].find("1 line was UTF-8 read as other text") == 0);
  // Accents that stand as they are, beside whatever marks, stay.
  for (const std::string one : {"Núñez Peña", "\u201CJOS\u00C9\u201D", "\u00ABCAF\u00C9\u00BB", "Ã",
                                "SÃO ÂNGELO", "D\u2019Arcy"}) {
    INFO(one);
    CHECK(textOf(one) == one);
  }
}

TEST_CASE("A cell that is a formula of one text is that text", "[case-270]") {
  CHECK(cellsOf("a,b\n=\"00123\",=1+1\n") == "1:[a][b]2:[00123][=1+1]");
}

TEST_CASE("UTF-16 is read in both orders, pairs and halves of pairs too", "[case-270]") {
  using namespace std::string_literals;
  CHECK(textOf("\xFF\xFE\x3D\xD8\x00\xDE"s) == "\U0001F600");
  CHECK(textOf("\xFE\xFF\xD8\x3D\xDE\x00"s) == "\U0001F600");
  CHECK(textOf("\xFF\xFE\x3D\xD8\x41\x00"s) == std::string(exchange::unreadSign) + "A");
  CHECK(textOf("\xFE\xFF\x00\x4E\x00\xFA"s) == "Nú");
}

TEST_CASE("Cells are found between whatever parts the rows most alike", "[case-270]") {
  CHECK(cellsOf("a;b;c\n1,5;2;3\n") == "1:[a][b][c]2:[1,5][2][3]");
  CHECK(cellsOf("a\tb\nOake, Pia\t2\n") == "1:[a][b]2:[Oake, Pia][2]");
  CHECK(cellsOf("a|b\n1|2\n") == "1:[a][b]2:[1][2]");
  CHECK(cellsOf("Oake, Pia;2\nSedge, Jo;2\n") == "1:[Oake, Pia][2]2:[Sedge, Jo][2]");
  CHECK(cellsOf("sep=,\na;x,b\n") == "2:[a;x][b]");
  CHECK(cellsOf("one\ntwo\n") == "1:[one]2:[two]");
}

TEST_CASE("Lines are counted as in the file, whatever ends them", "[case-270]") {
  CHECK(cellsOf("a,b\r\n\r\n1,2\r3,4\n\n5,6") == "1:[a][b]3:[1][2]4:[3][4]6:[5][6]");
  CHECK(cellsOf("a,b\n\"1\r\n1\",2\n3,4\n") == "1:[a][b]2:[1\r\n1][2]4:[3][4]");
}

TEST_CASE("Columns that are blank in every row go", "[case-270]") {
  CHECK(cellsOf("a,,b,,\n1,,2,,\n,, ,,\n3,,,,\n") == "1:[a][b]2:[1][2]4:[3][]");
}

TEST_CASE("A list of many odd quotes is read in time that its length bounds", "[case-270]") {
  const auto timed = [](const std::string& bytes) {
    const auto begun = std::clock(); // of this process, however busy the machine is
    (void)readList(bytes);
    return static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
  };
  for (const std::string part : {"\"", "\",", ",\"\"\"", "\"\n", "\"a\"b,", "\"\r\n\r\n,"}) {
    std::string bytes;
    while (bytes.size() < (std::size_t{1} << 20U))
      bytes += part;
    INFO(part);
    // Four times the list takes four times as long, and 16 if each quote had the rest looked
    // through; 10 leaves room for a busy machine.
    const auto quarter = std::max(timed(bytes.substr(0, bytes.size() / 4)), 0.02);
    CHECK(timed(bytes) < 10 * quarter);
  }
}
