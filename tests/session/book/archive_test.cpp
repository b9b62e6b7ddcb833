#include "session/book/archive.h"

#include "support/clinic.h"

using namespace gk;
using base::ErrorCode;
using test::codeOf;
using test::must;

TEST_CASE("A year is archived once it is over and each of its days is signed or canceled",
          "[case-289]") {
  test::Clinic clinic;
  auto& book = clinic.session;
  const auto on = [](const char* iso) { return must(base::Date::parse(iso)); };
  const auto year = must(book.enterYear(
      clinic.by, {"Fall/26", roster::YearKind::grant, on("2026-07-01"), on("2026-12-31")}));
  CHECK(codeOf(session::archiveName(book, year, on("2026-12-31"))) == ErrorCode::ruleDate);
  const auto early = session::archiveName(book, year, on("2027-01-01"));
  CHECK(codeOf(early) == ErrorCode::ruleDayOpen);
  CHECK(early.error().detail.find("November 17, 2026") != std::string::npos);
  must(book.cancelDay(clinic.by, clinic.day, "snow"));
  const auto name = must(session::archiveName(book, year, on("2027-01-01")));
  CHECK(name.ends_with("-Fall-26-archive.gkbook"));
  CHECK(codeOf(session::archiveName(book, roster::YearId(base::Uuid{}), on("2027-01-01"))) ==
        ErrorCode::notFound);
}
