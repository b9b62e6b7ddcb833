#include "store/records/every_table.h"
#include "store/part.h"

#include "broken/broken_books.h"
#include "broken/digest_all.h"
#include "store/digest/lines.h"
#include "store/digest/signed_day.h"
#include "store/digest/sweep.h"
#include "store/erasing.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <sqlite3.h>

namespace gk::test {

namespace {

struct SampleRow {
  std::string table;
  std::string values; ///< after `entry`; # is 1 or 2, @table1 the entry of that row
};

/// In an order in which whatever is pointed at comes first. A list follows the table it is of.
const std::vector<SampleRow>& sampleRows() {
  static const std::vector<SampleRow> rows{
      {"school", "'School #', 'S#', '2031-06-1#'"},
      {"term", "'Term #', '2026-09-0#', '2026-12-18'"},
      {"term_holiday", "0, '2026-10-1#'"},
      {"term_holiday", "1, '2026-11-2#'"},
      {"member", "'Member #', 'M#', 'hygienist', 'L#', '2027-06-1#', 250 + #"},
      {"program", "'Program #', 'County #', '000-555-010#', 'universal', 'general', 'Dr. #', "
                  "'2027-07-0#', 'law #', 10 + #, 'all', 90, 0, 20, 20, 10, 5 + #, 300 + #, "
                  "50 + #, 60 + #, 70 + #, 80 + #"},
      {"child", "'104#-0', 2018, #, 'female', @school1, '2', 'R#', 0, 'note #', "
                "'2027-06-1#', 'moved away'"},
      {"clinic_day", "@term1, @school#, '2026-11-1#', #, '', 0"},
      {"light", "'L-#', 'LED', 800, 1000 + #, 1, 'M-#', 1"},
      {"lot", "'light-cure sealant', 'Resin #', 'A#', '2027-03-0#', 20, 3, 0, '', NULL"},
      {"medical_flag", "@child#, 'asthma', 'note', 'detail #', 0, ''"},
      {"enrolment", "@term1, @school#, '2', 60 + #"},
      {"meal_eligibility", "@term1, @school#, 50 + #, 'state list'"},
      {"background", "@child#, #, 'chip'"},
      {"sealed_identity",
       "@child#, x'" + std::string(46, '1') + "0#', x'" + std::string(60, '2') + "0#'"},
      {"consent", "@child#, @term1, 'yes', 15 + #, 'parent', 1, '2026-09-0#', '2026-09-1#', "
                  "'2026-09-1#', '2027-09-0#', 'yes', 'form #', 'v#', 'English'"},
      {"consent_override", "@child#, '2026-11-1#', @member#, 'reason #'"},
      {"meter_reading", "@light#, '2026-11-1#', 900 + #, 1, 'M-#', 1"},
      {"cure_time", "@light#, 'Resin #', 20 + #"},
      {"lot_count", "@clinic_day#, @lot#, 1, 10 + #"},
      {"readiness_check", "@clinic_day#, 'clock', 'done', '', 'detail #'"},
      {"light_pass", "@clinic_day#, @light#, 'reason #'"},
      {"agreement_override", "@clinic_day#, @member#, 'reason #'"},
      {"authorization", "@child#, @member#, 'record review', '2026-11-0#', '2027-11-0#', 0, 'n #'"},
      {"authorization_tooth", "0, 1#, 1"},
      {"authorization_tooth", "1, 2#, 3"},
      {"seating", "@child#, @clinic_day#, 3, 1, 0, 'new inhaler #'"},
      {"seating_alert", "0, @medical_flag#"},
      {"screening", "@child#, @clinic_day#, 'no', 'no', 'none', 'none', 'note #'"},
      {"screening_tooth",
       "0, 1#, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', "
       "'not sealed', 'none', 'none', 'seal', 1, 0, 'a #', 'not said'"},
      {"screening_tooth",
       "1, 2#, 'erupted', 'sound', 'not sealed', 'sound', 'not sealed', 'sound', "
       "'not sealed', 'none', 'none', 'reseal', 1, 1, 'b #', 'lost'"},
      {"field", "@child#, @clinic_day#, 'cotton rolls', 15, 'operator', 'assistant', 1, @member2, "
                "@lot1, @lot2, 0, 'note #', 'gauze'"},
      {"field_tooth", "0, 1#, 1"},
      {"field_tooth", "1, 2#, 3"},
      {"timer_start", "@field#, 'etch', 20 + #, @light#"},
      {"timer_tooth", "0, 1#, 1"},
      {"timer_tooth", "1, 2#, 3"},
      {"step_run",
       "@field#, 'etch', 'done', 21000 + #, 20, 'timer', @timer_start#, @light1, @lot2, "
       "'first', 'r #'"},
      {"step_tooth", "0, 1#, 1"},
      {"step_tooth", "1, 2#, 3"},
      {"wet", "@field#, 'after etch', 'saliva', 'note #'"},
      {"wet_tooth", "0, 1#"},
      {"wet_tooth", "1, 2#"},
      {"placement", "@child#, @clinic_day#, @field#, 1#, 1, 'new', 'complete', @member1, @member2, "
                    "'cotton rolls', 1, @lot1, @lot2, @light1, 21000, 20000 + #, 1, 0, 0, 1, 1, "
                    "'passed', 'note #'"},
      {"after_cure", "@child#, @clinic_day#, 1, 'fine', 'note #'"},
      {"varnish", "@child#, @clinic_day#, @lot#"},
      {"day_outcome", "@child#, @clinic_day#, 'sealed, complete', 'r #', 'late bus'"},
      {"paper_sheet", "@child#, @clinic_day#, 'P-#', @member2"},
      {"retention_check",
       "@placement#, @child#, @clinic_day#, 'short-term sample', 1, 'whole', 'not "
       "sealed', 'not sealed', 'none', 'sound', 'held', 'none', 'note #'"},
      {"referral",
       "@child#, @clinic_day#, 'early', 'reason #', '2026-12-0#', 'own dentist', 'open'"},
      {"contact_attempt", "@child#, @clinic_day#, 'phone', 'message', 'note #'"},
      {"letter", "@child#, @clinic_day#, #, 'English', 0, 'sealed', 'facts #', '" +
                     std::string(64, 'a') + "', '" + std::string(64, 'b') +
                     "', '2026-11-1#', #, 'printed', NULL"},
      {"incident",
       "@clinic_day#, @child#, 'eye splash', 1794900000000 + #, -300, 'done #', 'told', "
       "'', 0"},
      {"paper_count", "@clinic_day#, 'letters', 5, 4, 3, #, ''"},
      {"backup_note", "@clinic_day#, 'copy-#.gkbook', 1, 'copy-#.gkpapers'"},
      {"merge_answer", "@clinic_day#, @child#, NULL, x'" + std::string(30, '3') +
                           "0#', 'one is kept', 2, 'note #'"},
      {"issued_report",
       "@term1, 'funder', 'all', #, '2026-12-1#', '1,2', '" + std::string(64, 'c') + "', 'lines'"},
      {"day_effort", "@clinic_day#, 2, 300, 10 + #"},
      {"day_effort_people", "'hygienist', 300 + #"},
      {"day_effort_people", "'coordinator', 200 + #"},
      {"reopening", "@clinic_day#, 'reason #'"},
      {"addendum", "@clinic_day#, @child#, 'words #'"},
      {"member_pin", "@member#, x'" + std::string(31, '4') + "#', 3, 67108864, x'" +
                         std::string(47, '5') + "#', x'" + std::string(95, '6') + "#', ''"},
      {"placements_confirmed", "@clinic_day#, @member#, @placement#"},
      {"program_year", "'2026-2#', 'grant year', '2026-10-0#', '2027-09-30'"},
      {"list_columns", "@school#, 'dob=birth date;#'"},
      {"card_join", "@child#, @school#"},
      {"form_handout", "@term1, @school#, 'R#', '2026-09-1#', 20 + #, 'v#', 'English'"},
      {"planned_day", "@term1, @school#, '2026-11-1#', 1, #, 'OF', 'note #', 0"},
      {"day_envelope", "'00000000-0000-4000-8000-00000000000#', '2026-11-1#', 1"},
      {"merge_note", "10 + #, #"},
      {"merge_note_laptop", "0, x'" + std::string(31, '5') + "#', 7, 30 + #"},
      {"merge_note_laptop", "1, x'" + std::string(31, '6') + "#', 3, 40 + #"},
      {"passphrase_change", "x'" + std::string(31, '7') + "#'"},
      {"day_cost", "@clinic_day#"},
      {"day_cost_line", "'staff', 41250 + #"},
      {"day_cost_line", "'travel', 2000 + #"},
      {"book_key", "x'" + std::string(31, '7') + "#', 'reason #'"},
      {"book_key_earlier", "0, x'" + std::string(31, '8') + "#', x'" + std::string(46, '1') +
                               "0#', x'" + std::string(94, '2') + "0#'"},
      {"book_key_earlier", "1, x'" + std::string(31, '9') + "#', x'" + std::string(46, '3') +
                               "0#', x'" + std::string(94, '4') + "0#'"},
  };
  return rows;
}

class EveryTable {
 public:
  explicit EveryTable(store::Connection& book) : book_(book) {}

  void make() {
    book_.execute("BEGIN");
    book_.execute(
        "INSERT INTO book (only_row, id, salt, kdf_passes, kdf_bytes, key_nonce, key_box) "
        "VALUES (1, x'" +
        hex(900) + "', x'0102', 3, 65536, x'0304', x'0506')");
    for (int number = 1; number <= 2; ++number)
      book_.execute("INSERT INTO hand VALUES (" + std::to_string(number) + ", x'" +
                    hex(800 + number) + "')");
    for (const auto& row : sampleRows()) {
      const auto parent = listOf(row.table);
      for (int n = 1; n <= 2; ++n) {
        if (parent.empty()) enter(row.table, n);
        const auto owner = (parent.empty() ? row.table : parent) + std::to_string(n);
        write(row.table, ids_.at(owner), filled(row.values, n));
      }
    }
    // By another than the rest of its act.
    enter("child", 1, ids_.at("child1"), "typed wrong", ids_.at("member2"));
    write("child", ids_.at("child1"),
          filled("'1041-0', 2017, 5, 'male', @school2, '3', 'R9', 0, '', NULL, NULL", 1));
    enter("retraction", 2, ids_.at("varnish2"), "wrong child");
    for (int n = 1; n <= 2; ++n)
      eraseOne(n);
    for (int n = 1; n <= 2; ++n)
      leaveOut(n);
    for (int number = 1; number <= 2; ++number)
      endAct(number);
    copyFirstHand();
    book_.forgetHands();
    store::applyErasures(book_, store::newestSchema());
    digestAll(book_);
    store::sealKey(book_);
    book_.execute("COMMIT");
  }

  [[nodiscard]] std::vector<roster::ChildId> leftOut() const {
    std::vector<roster::ChildId> all;
    for (const auto key : leftOut_)
      all.emplace_back(*book_.hands().identityOf(key));
    return all;
  }
  [[nodiscard]] store::Part part() const {
    return {roster::SchoolId(*book_.hands().identityOf(std::stoll(ids_.at("school1")))), 2069};
  }

 private:
  struct Writing {
    std::int64_t first = 0; ///< of the act that is open
    std::int64_t sequence = 1;
    std::int64_t rows = 0;
    std::int64_t acts = 0; ///< that are ended
  };

  static std::string hex(int number) {
    auto digits = std::to_string(number);
    return std::string(32 - digits.size(), '0') + digits;
  }
  /// The table that a list is of; none for a table that is no list.
  static std::string listOf(const std::string& table) {
    static const std::map<std::string, std::string> lists{{"term_holiday", "term"},
                                                          {"authorization_tooth", "authorization"},
                                                          {"seating_alert", "seating"},
                                                          {"screening_tooth", "screening"},
                                                          {"field_tooth", "field"},
                                                          {"timer_tooth", "timer_start"},
                                                          {"step_tooth", "step_run"},
                                                          {"wet_tooth", "wet"},
                                                          {"day_effort_people", "day_effort"},
                                                          {"day_cost_line", "day_cost"},
                                                          {"merge_note_laptop", "merge_note"},
                                                          {"book_key_earlier", "book_key"}};
    const auto found = lists.find(table);
    return found == lists.end() ? std::string() : found->second;
  }
  std::string filled(std::string values, int n) const {
    for (auto at = values.find('#'); at != std::string::npos; at = values.find('#', at))
      values.replace(at, 1, std::to_string(n));
    for (auto at = values.find('@'); at != std::string::npos; at = values.find('@', at)) {
      const auto end = values.find_first_of(", )", at);
      const auto name = values.substr(at + 1, end == std::string::npos ? end : end - at - 1);
      INFO(name);
      values.replace(at, name.size() + 1, ids_.at(name));
    }
    return values;
  }
  /// The two hands' acts lie between each other, as after a merge.
  void enter(const std::string& kind, int number, const std::string& supersedes = "NULL",
             const std::string& reason = {}, const std::string& author = "NULL") {
    auto& hand = hands_[static_cast<std::size_t>(number - 1)];
    if (hand.rows == mostRows(hand)) endAct(number);
    if (hand.rows == 0) hand.first = ((std::int64_t{217'087'200'000} + ++acts_) << 21) + number;
    const auto id = std::to_string(hand.first + hand.rows * store::keyStep);
    const auto own = supersedes == "NULL" ? "NULL" : "'" + reason + "'";
    const auto recorder = author == "NULL" ? "NULL" : ids_.at("member1");
    book_.execute("INSERT INTO entry (id, kind, nth, subject, supersedes, author, recorder, "
                  "reason) VALUES (" +
                  id + ", (SELECT number FROM entry_kind WHERE name = '" + kind + "'), " +
                  std::to_string(hand.rows++) + ", " + supersedes + ", " + supersedes + ", " +
                  author + ", " + recorder + ", " + own + ")");
    if (supersedes == "NULL") ids_[kind + std::to_string(number)] = id;
    newest_ = id;
    if (kind == "child" && supersedes == "NULL")
      book_.execute("INSERT INTO child_salt (child, salt) VALUES (" + id + ", randomblob(16))");
  }
  /// Three rows are an act, and so the last one's however many tables there are, since tests change
  /// the book by place: what does not divide by three is made up by acts of two after the first.
  [[nodiscard]] static std::int64_t mostRows(const Writing& hand) {
    const auto tables = std::ranges::count_if(
        sampleRows(), [](const auto& row) { return listOf(row.table).empty(); });
    const auto rows = tables + 1 + rowsOfErased; // one is corrected or taken back
    const auto shortActs = (3 - rows % 3) % 3;
    return hand.acts > 0 && hand.acts <= shortActs ? 2 : 3;
  }
  static constexpr std::int64_t rowsOfErased = 4 + 3; // and of whoever is left out
  /// A student of whom nothing else speaks, with a corrected alert, and the erasure that names it.
  void eraseOne(int n) {
    enter("child", n);
    write("child", {},
          filled("'204#-0', 2018, 6, 'female', @school1, '2', 'R1', 0, 'words', NULL, NULL", n));
    enter("medical_flag", n);
    write("medical_flag", {}, filled("@child#, 'asthma', 'note', 'detail', 0, ''", n));
    enter("medical_flag", n, newest_, "said again");
    write("medical_flag", {}, filled("@child#, 'asthma', 'note', 'more', 0, ''", n));
    enter("erasure", n);
    write("erasure", {},
          filled("@child#, '204#-0', 'a letter', 'a rule', 'asked for', NULL, x''", n));
  }
  /// One more, whose content stays in another logbook.
  void leaveOut(int n) {
    enter("child", n);
    write("child", {},
          filled("'206#-0', 2018, 7, 'male', @school2, '2', 'R2', 0, 'words', NULL, NULL", n));
    leftOut_.emplace_back(std::stoll(newest_));
    enter("medical_flag", n);
    write("medical_flag", {}, filled("@child#, 'asthma', 'note', 'detail', 0, ''", n));
    enter("medical_flag", n, newest_, "said again");
    write("medical_flag", {}, filled("@child#, 'asthma', 'note', 'more', 0, ''", n));
  }
  /// The first hand went on in a copy as well, from its last act but one.
  void copyFirstHand() {
    std::vector<std::pair<std::int64_t, std::int64_t>> acts;
    {
      auto rows = book_.prepare("SELECT first, sequence FROM act WHERE (first & 2047) = 1 ORDER BY "
                                "sequence DESC LIMIT 2");
      while (rows.step())
        acts.emplace_back(rows.column<std::int64_t>(0), rows.column<std::int64_t>(1));
    }
    const auto first = std::to_string((((std::int64_t{217'087'200'000} + ++acts_) << 21) + 3));
    book_.execute("INSERT INTO hand VALUES (3, x'" + hex(803) + "')");
    book_.execute("INSERT INTO entry (id, kind, nth) VALUES (" + first +
                  ", (SELECT number FROM entry_kind WHERE name = 'school'), 0)");
    book_.execute("INSERT INTO school VALUES (" + first + ", 'Copied', 'C', NULL)");
    book_.execute("INSERT INTO act (first, sequence, count, at, utc_offset, verb, station, digest) "
                  "VALUES (" +
                  first + ", " + std::to_string(acts[0].second) + ", 1, " +
                  std::to_string(1'794'924'000'000 + acts_) +
                  ", -300, 'verb', 'chair', zeroblob(32))");
    for (const auto& one : {std::to_string(acts[0].first), first})
      book_.execute("INSERT INTO hand_branch VALUES (" + one + ", " +
                    std::to_string(acts[1].first) + ", 1, x'" + hex(one == first ? 803 : 804) +
                    "')");
  }
  void endAct(int number) {
    auto& hand = hands_[static_cast<std::size_t>(number - 1)];
    if (hand.rows == 0) return;
    const auto known = [&](const char* member) {
      return ids_.contains(member) ? ids_.at(member) : std::string("NULL");
    };
    book_.execute("INSERT INTO act (first, sequence, count, at, utc_offset, author, recorder, "
                  "verb, station, digest) VALUES (" +
                  std::to_string(hand.first) + ", " + std::to_string(hand.sequence) + ", " +
                  std::to_string(hand.rows) + ", " + std::to_string(1'794'924'000'000 + acts_) +
                  ", -300, " + known("member1") + ", " + known("member2") +
                  ", 'verb', 'chair', zeroblob(32))");
    hand.sequence += hand.rows;
    hand.rows = 0;
    ++hand.acts;
  }
  void write(const std::string& table, const std::string& entry, const std::string& values) {
    const auto hangsOn = listOf(table).empty() ? newest_ : entry;
    INFO(table << " " << values);
    const auto written = store::guarded([&] {
      book_.execute("INSERT INTO " + table + " VALUES (" + hangsOn + ", " + values + ")");
    });
    if (!written) FAIL(written.error().detail);
  }

  store::Connection& book_;
  std::map<std::string, std::string> ids_;
  std::array<Writing, 2> hands_;
  std::string newest_;
  int acts_ = 0;
  std::vector<std::int64_t> leftOut_;
};

} // namespace

void makeEveryTable(const base::Path& path, Holds holds) {
  std::optional<store::Part> part;
  std::vector<roster::ChildId> leftOut;
  {
    auto fresh = store::createBook(path, store::Durability::bulk, someMorning);
    REQUIRE(fresh);
    EveryTable every(*fresh);
    every.make();
    part = every.part();
    leftOut = every.leftOut();
    fresh->finish();
  }
  if (holds == Holds::everyone) leftOut.clear();
  if (const auto left = store::Parting::leaveOut(path, *part, leftOut); !left)
    FAIL(left.error().detail);
  addSigned(path);
  auto made = store::openBook(path, store::Access::readWrite, store::Durability::bulk, someMorning);
  REQUIRE(made);
  auto tables = made->prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
  while (holds == Holds::part && tables.step()) {
    const auto table = tables.column<std::string>(0);
    auto rows = made->prepare("SELECT count(*) FROM \"" + table + '"');
    rows.step();
    INFO("a table that tests/store/records/every_table.cpp has no rows of: " << table);
    REQUIRE(rows.column<int>(0) >=
            (table == "book" || table == "migration" || table == "part" ? 1 : 2));
  }
}

} // namespace gk::test
