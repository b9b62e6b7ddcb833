#include "store/book_file.h"
#include "store/records/authorization_rows.h"
#include "store/records/chairside_rows.h"
#include "store/records/closing_rows.h"
#include "store/records/consent_rows.h"
#include "store/records/followup_rows.h"
#include "store/records/kit_rows.h"
#include "store/records/people_rows.h"
#include "store/records/record_list.h"
#include "store/records/roster_rows.h"
#include "store/records/year_rows.h"
#include "store/rows/book_queries.h"
#include "store/values/identity_row.h"
#include "support/scratch.h"

#include <algorithm>
#include <catch2/catch.hpp>

namespace gk::test {

using store::rowsOf;
using store::Where;

namespace {

/// An empty book, whose plans are those of every book: nothing ever runs ANALYZE.
class Planned {
 public:
  Planned() {
    auto made = store::createBook(folder_ / "empty.gkbook", store::Durability::bulk,
                                  base::Instant{base::Milliseconds(1'700'000'000'000)});
    REQUIRE(made.has_value());
    book_.emplace(std::move(*made));
  }
  /// The lines of the plan that walk through a whole table, or an index of it from end to end.
  std::vector<std::string> scans(std::string_view sql) {
    std::vector<std::string> found;
    auto plan = book_->prepare("EXPLAIN QUERY PLAN " + std::string(sql));
    while (plan.step())
      if (auto line = plan.column<std::string>(3);
          line.starts_with("SCAN") && line != "SCAN CONSTANT ROW")
        found.push_back(std::move(line));
    return found;
  }
  /// The lines of the plan that sort what was found.
  std::vector<std::string> sorts(std::string_view sql) {
    std::vector<std::string> found;
    auto plan = book_->prepare("EXPLAIN QUERY PLAN " + std::string(sql));
    while (plan.step())
      if (auto line = plan.column<std::string>(3); line.starts_with("USE TEMP B-TREE"))
        found.push_back(std::move(line));
    return found;
  }
  template <class T>
  void looksUp(const Where& where) {
    const auto sql = store::selectSql<T>(where, store::Which::current);
    INFO(sql);
    CHECK(scans(sql).empty());
  }

 private:
  Scratch folder_;
  std::optional<store::Connection> book_;
};

constexpr base::Uuid some{};
const roster::ChildId anyChild{some};
const roster::DayId day{some};

} // namespace

TEST_CASE("no question about a child, a day, a field or a light walks through a table") {
  Planned book;
  book.looksUp<roster::Child>(store::subjectIs(anyChild));
  book.looksUp<roster::Child>(store::numberIs("1043-0"));
  book.looksUp<roster::Child>(rowsOf("school", roster::SchoolId(some)));
  book.looksUp<store::SealedIdentity>(rowsOf("child", anyChild));
  book.looksUp<roster::Consent>(rowsOf("child", anyChild));
  book.looksUp<roster::ConsentOverride>(rowsOf("child", anyChild));
  book.looksUp<roster::MedicalFlag>(rowsOf("child", anyChild));
  book.looksUp<roster::ClinicDay>(store::subjectIs(day));
  book.looksUp<roster::ClinicDay>(rowsOf("term", roster::TermId(some)));
  book.looksUp<roster::DayClosure>(rowsOf("day", day));
  book.looksUp<roster::Reopening>(rowsOf("day", day));
  book.looksUp<roster::Addendum>(rowsOf("day", day));
  book.looksUp<roster::MemberPin>(rowsOf("member", base::MemberId(some)));
  book.looksUp<followup::PlacementsConfirmed>(rowsOf("day", day));
  book.looksUp<roster::Addendum>(rowsOf("child", anyChild));
  book.looksUp<roster::Member>(store::subjectIs(base::MemberId(some)));
  book.looksUp<kit::Lot>(store::subjectIs(kit::LotId(some)));
  book.looksUp<kit::MeterReading>(rowsOf("light", kit::LightId(some)));
  book.looksUp<chairside::Authorization>(rowsOf("child", anyChild));
  book.looksUp<chairside::PaperSheet>(rowsOf("day", day));
  for (const auto& where :
       {rowsOf("child", anyChild), rowsOf("day", day), rowsOf("child", anyChild, "day", day)}) {
    book.looksUp<chairside::Seating>(where);
    book.looksUp<chairside::Screening>(where);
    book.looksUp<chairside::Field>(where);
    book.looksUp<chairside::Placement>(where);
    book.looksUp<chairside::Varnish>(where);
    book.looksUp<chairside::DayOutcome>(where);
    book.looksUp<followup::RetentionCheck>(where);
    book.looksUp<followup::Referral>(where);
    book.looksUp<followup::ContactAttempt>(where);
  }
  const auto field = rowsOf("field", chairside::FieldId(some));
  book.looksUp<chairside::TimerStart>(field);
  book.looksUp<chairside::StepRun>(field);
  book.looksUp<chairside::Wet>(field);
  book.looksUp<chairside::Placement>(field);
}

TEST_CASE("a child and a day are looked up by the child, who has fewer rows") {
  Planned book;
  const auto sql = store::selectSql<chairside::Placement>(rowsOf("child", anyChild, "day", day),
                                                          store::Which::current);
  CHECK(sql.find("+day = ?2") != std::string::npos);
  CHECK(book.scans(sql).empty());
}

TEST_CASE("undo, the day's children and what came since walk through no table") {
  Planned book;
  for (const auto& sql : {store::newestBeforeSql(), store::rowsOfSubjectSql(), store::actOfSql(),
                          std::string(store::childrenToExpectSql), store::childPastSql(),
                          std::string(store::lastActSql)}) {
    INFO(sql);
    CHECK(book.scans(sql).empty());
  }
  // Its own list of new entries is walked through; no table is.
  for (const auto& line : book.scans(store::childrenTouchedSql)) {
    INFO(line);
    CHECK(line.find("fresh") != std::string::npos);
  }
}

TEST_CASE("a thing of any record type is looked up, and all rows of a type come without sorting") {
  Planned book;
  store::forEachRecord([&]<class T>() {
    book.looksUp<T>(store::subjectIs(anyChild));
    for (const auto& where : {store::everything(), store::pageAfter(base::EntryId(some), 100)})
      for (const auto which : {store::Which::current, store::Which::ever}) {
        const auto sql = store::selectSql<T>(where, which);
        INFO(sql);
        CHECK(book.sorts(sql).empty());
      }
  });
}

TEST_CASE("rows of a child come in the order they were entered without sorting") {
  Planned book;
  const auto sql =
      store::selectSql<chairside::Placement>(rowsOf("child", anyChild), store::Which::current);
  INFO(sql);
  CHECK(book.sorts(sql).empty());
}

TEST_CASE("what two laptops say of one thing is found by what was superseded") {
  Planned book;
  for (const auto sql : {store::rivalsSql, store::takenBackSql})
    for (const auto& line : book.scans(sql)) {
      INFO(line);
      // A list of its own, or the index of what supersedes something; never the entries.
      CHECK((line == "SCAN fork" || line == "SCAN forked" || line == "SCAN taken" ||
             line.find("INDEX entry_supersedes") != std::string::npos));
    }
}

} // namespace gk::test
