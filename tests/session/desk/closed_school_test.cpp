#include "session/second_laptop.h"

#include <algorithm>

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

namespace {

base::Date on(const char* text) {
  return must(base::Date::parse(text));
}

/// A clinic whose day at one school was held, and another school where nothing was yet.
struct Closing {
  test::Clinic clinic;
  session::Session& book = clinic.session;
  roster::ChildId mina = clinic.child("Mina");
  roster::SchoolId other = must(book.enterSchool(clinic.by, {"Fennel Ridge Elementary", "FR"}));
  base::Date today = clinic.clock.now().date();
  base::Date tomorrow = today.plusDays(1);

  Closing() { clinic.standardVisit(mina); }
  ErrorCode refused(base::Date from) {
    return codeOf(book.closeSchool(clinic.by, clinic.school, from, "the district closed it"));
  }
  void close() {
    must(book.closeSchool(clinic.by, clinic.school, tomorrow, "the district closed it"));
    clinic.clock.advance(std::chrono::hours(24));
  }
  roster::ClinicDay dayAt(roster::SchoolId at, base::Date date) const {
    return {.term = clinic.term, .school = at, .date = date, .reason = {}};
  }
  bool isOffered(roster::SchoolId school) {
    const auto open = must(book.openSchools(clinic.clock.now().date()));
    return std::ranges::find(open, school, &base::Recorded<roster::School>::id) != open.end();
  }
};

} // namespace

TEST_CASE("A school is closed from a date with a reason: nothing new is of it, and all that was "
          "stays",
          "[case-314]") {
  Closing school;
  auto& book = school.book;
  const auto by = school.clinic.by;
  const auto closed = school.clinic.school;
  CHECK(codeOf(book.closeSchool(by, closed, school.tomorrow, " ")) == ErrorCode::ruleReason);
  CHECK(school.refused(school.today) == ErrorCode::ruleDate); // a day was held on it
  const auto planned =
      must(book.planDay(by, {school.clinic.term, closed, school.today.plusDays(7)}));
  CHECK(school.refused(school.tomorrow) == ErrorCode::ruleDate);
  auto plan = must(book.plannedDays(school.clinic.term)).front().value;
  plan.canceled = true;
  must(book.correctPlan(by, planned, plan, "the school closes"));
  const auto said = must(book.changesWithClosing(closed));
  CHECK(std::ranges::any_of(
      said, [](const auto& one) { return one.find("1 student stays listed there") == 0; }));
  CHECK(std::ranges::any_of(said, [](const auto& one) { return one.find("1 school day") == 0; }));

  must(book.closeSchool(by, closed, school.tomorrow, "the district closed it"));
  CHECK(school.isOffered(closed)); // today it is open
  school.clinic.clock.advance(std::chrono::hours(24));
  CHECK_FALSE(school.isOffered(closed));
  CHECK(school.isOffered(school.other));
  // Nothing new.
  const auto today = school.tomorrow;
  CHECK(codeOf(book.openDay(by, school.dayAt(closed, today))) == ErrorCode::ruleDate);
  CHECK(codeOf(book.planDay(by, {school.clinic.term, closed, today.plusDays(7)},
                            session::Confirmed::yes)) == ErrorCode::ruleDate);
  plan.canceled = false;
  CHECK(codeOf(book.correctPlan(by, planned, plan, "after all", session::Confirmed::yes)) ==
        ErrorCode::ruleDate);
  CHECK(codeOf(book.enterHandout(by, {school.clinic.term, closed, "6", today, 24})) ==
        ErrorCode::ruleDate);
  CHECK(codeOf(book.enrollChild(by,
                                {.number = roster::withCheckDigit("4402"),
                                 .birth = {2019, 3},
                                 .school = closed,
                                 .grade = "2",
                                 .room = "6",
                                 .note = {}},
                                {.first = "Wren", .last = "Quill", .birth = on("2019-03-14")})) ==
        ErrorCode::ruleDate);
  // All that was.
  CHECK(must(book.placements(school.mina)).size() == 4);
  CHECK(must(book.child(school.mina)).value.school == closed);
  CHECK(must(book.days(school.clinic.term)).size() == 1);
  CHECK(must(book.schools()).size() == 2);
  CHECK(must(book.findings()).empty());
  // No one chases a form there, unless the school is asked for.
  CHECK(must(book.formLines(school.clinic.term, today)).empty());
  CHECK(must(book.formLines(school.clinic.term, today, closed)).size() == 1);
  // Who is listed there can leave it, and not come back.
  must(book.moveChild(by, school.mina, school.other, "2", "4", "her new school"));
  CHECK(codeOf(book.moveChild(by, school.mina, closed, "2", "6", "back")) == ErrorCode::ruleDate);
}

TEST_CASE("A school that was closed by mistake is reopened, and both stay in its history",
          "[case-314]") {
  Closing school;
  auto& book = school.book;
  const auto by = school.clinic.by;
  const auto id = school.clinic.school;
  CHECK(codeOf(book.reopenSchool(by, id, "never closed")) == ErrorCode::notFound);
  school.close();
  // A correction of the name reopens nothing, whatever it was handed.
  must(book.correctSchool(by, id, {"Cobble Lantern School", "CL"}, "its new name"));
  CHECK_FALSE(school.isOffered(id));
  CHECK(codeOf(book.closeSchool(by, id, school.tomorrow, "again")) == ErrorCode::ruleDate);
  must(book.closeSchool(by, id, school.tomorrow.plusDays(30), "at the end of the year"));
  CHECK(school.isOffered(id));
  must(book.reopenSchool(by, id, "the district changed its mind"));
  CHECK(school.isOffered(id));
  must(book.openDay(by, school.dayAt(id, school.clinic.clock.now().date())));
  const auto history = must(book.revisions<roster::School>(id));
  REQUIRE(history.size() == 5);
  CHECK(history[1].value.closedFrom == school.tomorrow);
  CHECK(history[1].stamp.reason == "the district closed it");
  CHECK_FALSE(history.back().value.closedFrom.has_value());
  CHECK(must(book.findings()).empty());
}

TEST_CASE("The check list asks nothing of a closed school, and for one where all are closed",
          "[case-314]") {
  Closing school;
  auto& book = school.book;
  const auto schools = [&] {
    return must(book.setup(school.clinic.clock.now().date()))
        .at(static_cast<std::size_t>(session::Area::schools));
  };
  CHECK(schools().open.front().find("2 schools") != std::string::npos); // no enrollment
  school.close();
  CHECK(schools().words == "1 school");
  CHECK(schools().open.front().find("1 school") != std::string::npos);
  must(book.closeSchool(school.clinic.by, school.other, school.tomorrow, "both closed"));
  CHECK(schools().standing == session::AreaStanding::missing);
  CHECK(schools().open.front().find("Every school is closed") == 0);
}

TEST_CASE("One laptop closes a school while another works there: both come together by merging",
          "[case-314]") {
  Closing school;
  auto& book = school.book;
  test::Second second(school.clinic, "second.gkbook", 2);
  school.close();
  must(second.session.openDay(school.clinic.by,
                              school.dayAt(school.clinic.school, school.tomorrow)));
  const auto theirs = second.handOver();
  const auto ours = *school.clinic.folder / "one.gkbook";
  must(book.backUp(ours));
  must(second.session.absorb(ours));
  must(book.absorb(theirs));
  for (auto* session : {&book, &second.session}) {
    CHECK(must(session->days(school.clinic.term)).size() == 2); // the day stays
    for (const auto& row : must(session->schools()))
      CHECK(roster::isClosed(row.value, school.tomorrow) == (row.id == school.clinic.school));
    CHECK(must(session->findings()).empty());
    const auto areas = must(session->setup(school.tomorrow));
    const auto& open = areas.at(static_cast<std::size_t>(session::Area::schools)).open;
    CHECK(std::ranges::any_of(open, [](const auto& sentence) {
      return sentence.find("is closed from Nov") != std::string::npos &&
             sentence.find("but has a school day on Nov") != std::string::npos;
    }));
  }
  // The day that is there is worked and closed as any other.
  must(book.reopenSchool(school.clinic.by, school.clinic.school, "a day was held after all"));
}
