#include "fuzz/targets.h"

#include "base/files/files.h"
#include "base/text/csv.h"
#include "base/text/text.h"
#include "base/time/date.h"
#include "dentition/surfaces.h"
#include "exchange/lists/workbook.h"
#include "exchange/papers.h"
#include "exchange/setup/setup_document.h"
#include "fuzz/brought.h"
#include "fuzz/judge.h"
#include "office/estimates/estimate_csv.h"
#include "reports/letters/letter.h"
#include "reports/letters/letter_template.h"
#include "roster/child/child.h"
#include "roster/list/roster_list.h"
#include "session/merging/envelope.h"
#include "store/book.h"
#include "store/digest/hand_memory.h"
#include "support/packed.h"
#include "support/samples/setup_sample.h"
#include "vault/identity_bytes.h"
#include "vault/vault.h"

#include <fstream>
#include <unistd.h>

namespace gk::test {

namespace {

std::string_view textOf(FuzzBytes bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

const base::Date someDay = base::Date::of(2026, 11, 17).value();

void csv(FuzzBytes bytes) {
  const auto table = base::parseCsv(textOf(bytes));
  judge(table);
  if (!table) return;
  // What is written of it is read again as it was, but for what is kept from running.
  std::string again = base::csvLine(table->header);
  for (const auto& row : table->rows)
    again += base::csvLine(row.cells);
  const auto twice = base::parseCsv(again);
  if (twice)
    for (const auto& row : twice->rows)
      base::require(row.cells.size() == table->header.size(), "a row of another width");
}

/// A school's list: bytes to rows to children, with the columns as they suggest themselves. Every
/// row is a child, waits, or is skipped with its line; what waits is saved and says why.
void roster(FuzzBytes bytes) {
  const auto list = exchange::readList(textOf(bytes));
  judge(list);
  if (!list) return;
  for (const auto& row : list->rows)
    for (const auto& cell : row.cells)
      base::require(base::isUtf8(cell) && !base::controlIn(cell), "a cell of no text");
  const auto layout = roster::suggestLayout(list->rows);
  if (!roster::layoutProblems(layout).empty()) return;
  const auto reading = roster::readRoster(list->rows, layout, someDay);
  const auto told = reading.lines.size() + reading.held.size() + reading.skipped.size();
  base::require(told + (layout.heading ? 1 : 0) == list->rows.size(), "a row was lost");
  if (!reading.held.empty()) {
    base::require(!roster::problemsError(reading.held).detail.empty(), "a problem without a word");
    judge(base::parseCsv(roster::problemsCsv(list->rows, layout, reading.held)));
  }
}

/// A sheet of a workbook as any program may have packed it; a damaged package is for `roster`.
void workbook(FuzzBytes bytes) {
  const auto bytesOfBook = packed(
      {{"xl/workbook.xml", "<workbook><sheets><sheet name=\"y\" r:id=\"r1\"/></sheets></workbook>"},
       {"xl/_rels/workbook.xml.rels", "<Relationships><Relationship Id=\"r1\" Type=\"t/worksheet\" "
                                      "Target=\"worksheets/a.xml\"/></Relationships>"},
       {"xl/worksheets/a.xml", std::string(textOf(bytes))}});
  judge(exchange::readWorkbook(bytesOfBook));
  judge(
      exchange::readWorkbook(packed({{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
                                     {"content.xml", std::string(textOf(bytes))}})));
}

void papers(FuzzBytes bytes) {
  const auto read = exchange::unpacked(textOf(bytes));
  judge(read);
  if (read)
    base::require(exchange::unpacked(exchange::packed(*read)).value() == *read,
                  "papers that come out otherwise");
}

/// What is said of a thing can be put over any, as often as one likes.
void setup(FuzzBytes bytes) {
  const auto read = exchange::readSetup(textOf(bytes));
  judge(read);
  if (!read) return;
  for (const auto& term : read->terms) {
    auto again = term.value;
    term.into(again, {});
    base::require(again == term.value, "a term that says two things");
  }
  for (const auto& member : read->team)
    for (const auto& name : member.says) {
      auto again = member.value;
      member.into(again, name);
      base::require(again == member.value, "a member who says two things");
    }
}

/// What import-authorizations reads of each cell.
void authorizations(FuzzBytes bytes) {
  const auto table = base::parseCsv(textOf(bytes));
  if (!table) return;
  for (const auto& row : table->rows)
    for (const auto& cell : row.cells) {
      judge(roster::parseChildNumber(cell));
      judge(dentition::parseTeeth(cell, dentition::Notation::universal));
      judge(dentition::parseTeeth(cell, dentition::Notation::iso3950));
      judge(dentition::parseSurfaces(cell));
    }
}

void estimates(FuzzBytes bytes) {
  const auto text = textOf(bytes);
  judge(office::readRetention(text));
  judge(office::readExposures(text));
  judge(office::readSpells(text));
  judge(office::readStrata(text));
  judge(office::readUnits(text));
  judge(office::readSizes(text));
}

void letter(FuzzBytes bytes) {
  judge(reports::LetterTemplate::parse("letter.txt", textOf(bytes)));
}

void identity(FuzzBytes bytes) {
  const auto read = vault::decode(bytes);
  judge(read);
  if (!read) return;
  const auto again = vault::encode(*read);
  base::require(std::equal(again.begin(), again.end(), bytes.begin(), bytes.end()),
                "two ways to write one identity");
}

void wrappedKey(FuzzBytes bytes) {
  const auto take = [&](std::size_t count) {
    const auto taken = bytes.first(std::min(count, bytes.size()));
    bytes = bytes.subspan(taken.size());
    return std::vector<std::uint8_t>(taken.begin(), taken.end());
  };
  // The cost is the cheapest there is: what a costly one does is tested apart.
  const vault::WrappedKey wrapped{take(16), 1, 8192, take(24), take(64)};
  judge(vault::Vault::open(crypto::Secret::copyOf(std::string_view("granite lantern")), wrapped));
}

/// In memory where there is such a folder, since it is written for each try.
base::Path bookFile() {
  std::error_code unread;
  const auto folder = std::filesystem::is_directory("/dev/shm", unread)
                          ? base::Path("/dev/shm")
                          : std::filesystem::temp_directory_path();
  return folder / ("gk-fuzz-" + std::to_string(::getpid()) + ".gkbook");
}

void book(FuzzBytes bytes) {
  const auto file = bookFile();
  {
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    out.write(reinterpret_cast<const char*>(bytes.data()),
              static_cast<std::streamsize>(bytes.size()));
  }
  auto opened = store::Book::open(file, base::LaptopId(base::Uuid{}), store::Access::readOnly,
                                  store::Durability::everyAct, {});
  judge(opened);
  if (opened) judge(opened->faults());
  std::error_code ignored;
  std::filesystem::remove(file, ignored);
}

/// A journal beside a whole book, which SQLite would play back.
std::string wholeBook() {
  const auto file = bookFile();
  base::SeededRandom random(7);
  const store::KeyRow key{std::vector<std::uint8_t>(16), 1, 8192, std::vector<std::uint8_t>(24),
                          std::vector<std::uint8_t>(48)};
  {
    auto made = store::Book::create(file, base::LaptopId(base::makeUuid7({}, random)),
                                    store::Durability::bulk, {}, key, random, {});
    base::require(made.has_value(), "a book to begin with");
  }
  auto bytes = base::readFile(file).value();
  std::filesystem::remove(file);
  return bytes;
}

void journal(FuzzBytes bytes) {
  static const auto whole = wholeBook();
  const auto file = bookFile();
  const base::Path beside = file.string() + "-journal";
  std::ofstream(file, std::ios::binary | std::ios::trunc) << whole;
  std::ofstream(beside, std::ios::binary | std::ios::trunc) << textOf(bytes);
  {
    base::SeededRandom random(8);
    auto opened = store::Book::open(file, base::LaptopId(base::makeUuid7({}, random)),
                                    store::Access::readWrite, store::Durability::bulk, {});
    judge(opened);
  }
  std::error_code ignored;
  std::filesystem::remove(file, ignored);
  std::filesystem::remove(beside, ignored);
}

const crypto::Secret& dayWords() {
  static const auto words = crypto::Secret::copyOf(std::string_view("granite lantern"));
  return words;
}

/// At the cheapest cost; that a file cannot ask for another one is what its format says.
void envelope(FuzzBytes bytes) {
  judge(session::openEnvelope(bytes, dayWords(), crypto::KdfCost::cheapest()));
}

/// A memory whose sum is right, so that what is in it is read: it gives a hand, whatever it says.
void hands(FuzzBytes bytes) {
  const auto folder = bookFile().parent_path() / ("gk-fuzz-hands-" + std::to_string(::getpid()));
  const base::Uuid book{};
  std::error_code ignored;
  std::filesystem::create_directories(folder / "hands", ignored);
  const std::string text(textOf(bytes));
  std::ofstream(folder / "hands" / book.text(), std::ios::binary | std::ios::trunc)
      << text << "sum " << crypto::digest(text) << '\n';
  {
    base::SeededRandom random(9);
    const store::HandMemory memory(folder, {}, random);
    const auto taken = memory.take(
        book, [](base::LaptopId, const store::HandEnd&) { return store::HandInBook{}; }, {});
    base::require(taken.hand != base::LaptopId(base::Uuid{}), "a laptop without a name");
  }
  std::filesystem::remove_all(folder, ignored);
}

std::vector<std::string> lists() {
  return {"first,last,birth_date,grade,number,consent,services,signed_on\n"
          "Mina,Tolliver-Reed,2019-03-04,2,1043-0,yes,all,2026-10-01\n",
          "number,teeth\n1043-0,\"3, 14\"\n", "a,\"b\"\"c\"\r\n1,\"2\n3\"\r\n",
          "\xEF\xBB\xBF"
          "a;b\n=1+1;@x\n"};
}

std::vector<std::string> rosters() {
  auto all = lists();
  all.emplace_back(
      "Cobble Lantern Elementary;;\r\nStudent Name;DOB;Gr\r\n\"Reed, Mina\";3/4/19;2nd\r\n"
      "Teacher: Hill;;\r\n\"Oake, Jo\";13-Apr-2018;KG\r\nTotal: 2;;\r\n");
  all.emplace_back("\xFF\xFE"
                   "N\0a\0m\0e\0\t\0D\0O\0B\0\t\0G\0r\0\n\0A\0\t\0002\0\t\0K\0",
                   36);
  all.emplace_back(
      "First Name,Last Name,Birthdate,Grade,Allergies\nJos\xE9,Mu\xF1oz,43528,01,latex\n");
  return all;
}

std::vector<std::string> sheets() {
  return {
      "<worksheet><sheetData><row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>Name</t></is></c>"
      "<c r=\"B1\" t=\"str\"><v>DOB</v></c></row><row r=\"2\"><c r=\"A2\"><v>43528</v></c></row>"
      "</sheetData></worksheet>",
      "<office:document-content><office:body><office:spreadsheet><table:table><table:table-row>"
      "<table:table-cell table:number-columns-repeated=\"2\"><text:p>Mina</text:p>"
      "</table:table-cell></table:table-row></table:table></office:spreadsheet></office:body>"
      "</office:document-content>"};
}

std::vector<std::string> packs() {
  return {exchange::packed({{"a.csv", "1"}, {"b.pdf", "%PDF"}})};
}

std::vector<std::string> setups() {
  return {setupSample, setupOf(R"("team": [{"initials": "OF", "license_until": null}])")};
}

std::vector<std::string> tables() {
  return {"child,examined,retained,cluster\na,4,3,x\nb,2,2,y\n",
          "child,exposure,examined,affected\na,1.5,4,1\n",
          "left,right\n3,5\n2,\n",
          "stratum,exposed_kept,exposed_lost,other_kept,other_lost\na,3,1,2,2\n",
          "unit,examined,retained\nA,40,38\n",
          "n\n20\n100\n"};
}

std::vector<std::string> letters() {
  std::vector<std::string> all;
  for (const auto& shipped : reports::shippedTemplates())
    all.emplace_back(shipped.text);
  return all;
}

std::vector<std::string> identities() {
  vault::Identity one{.first = "Mina", .last = "Tolliver", .birth = someDay};
  one.guardians.push_back({"Ada", "mother", "000-555-0142", "English"});
  const auto bytes = vault::encode(one);
  return {std::string(bytes.begin(), bytes.end())};
}

std::vector<std::string> keys() {
  return {std::string(104, '\x21'), std::string(88, '\0')};
}
std::vector<std::string> envelopes() {
  base::SeededRandom random(10);
  const std::vector<std::uint8_t> file(3000, 7);
  const auto sealed =
      session::sealEnvelope({.name = {}, .book = "a book", .day = someDay, .school = "Cobble"},
                            file, dayWords(), crypto::KdfCost::cheapest(), random)
          .value();
  return {std::string(sealed.begin(), sealed.end())};
}
std::vector<std::string> memories() {
  const std::string hand = "hand 018f0000-0000-7000-8000-000000000001 0000000000000000004 " +
                           std::string(64, 'a') + '\n';
  return {"groovekeeper hands 1\nmachine salt unknown\nstate closed\n" + hand,
          "groovekeeper hands 1\nmachine salt unknown\nstate open unknown\n" + hand + hand};
}
std::vector<std::string> books() {
  return {wholeBook()};
}
std::vector<std::string> journals() {
  return {std::string("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8) +
          std::string("\0\0\0\1\0\0\0\0\0\0\0\1\0\0\2\0\0\0\x10\0", 20) + std::string(8000, '\0')};
}

} // namespace

const std::vector<FuzzTarget>& fuzzTargets() {
  static const std::vector<FuzzTarget> all{{"csv", csv, lists},
                                           {"roster", roster, rosters},
                                           {"workbook", workbook, sheets},
                                           {"papers", papers, packs},
                                           {"setup", setup, setups},
                                           {"authorizations", authorizations, lists},
                                           {"estimates", estimates, tables},
                                           {"letter", letter, letters},
                                           {"form", consentForm, consentForms},
                                           {"scanned", scanned, scans},
                                           {"typed", typed, words},
                                           {"sealed", sealedPapers, seals},
                                           {"identity", identity, identities},
                                           {"key", wrappedKey, keys},
                                           {"envelope", envelope, envelopes},
                                           {"hands", hands, memories},
                                           {"book", book, books},
                                           {"journal", journal, journals}};
  return all;
}

} // namespace gk::test
