#include "fuzz/brought.h"

#include "base/text/printed_code.h"
#include "base/text/text.h"
#include "base/time/date.h"
#include "dentition/tooth.h"
#include "fuzz/judge.h"
#include "kit/package_code.h"
#include "reports/sheets/consent_form.h"
#include "roster/child/child.h"
#include "roster/consent/form_desk.h"
#include "roster/days/day_cost.h"
#include "roster/days/day_effort.h"
#include "roster/program/program.h"
#include "session/book/snapshot.h"
#include "session/session.h"
#include "support/scratch.h"

namespace gk::test {

namespace {

std::string_view lettersOf(FuzzBytes bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

/// A logbook that is open, and papers that it sealed.
struct OpenBook {
  Scratch folder;
  base::ManualClock clock{base::atLocal(base::Date::of(2026, 11, 17).value(), std::chrono::hours(9),
                                        std::chrono::hours(-5))};
  base::SeededRandom random{11};
  session::Session session = made();
  std::string papers = sealed();

  session::Session made() {
    roster::Program program;
    program.name = "A program";
    program.county = "Larkmere";
    program.phone = "000-555-0142";
    auto session = session::Session::create(folder / "day.gkbook", "granite lantern",
                                            base::LaptopId(base::makeUuid7(clock.now().at, random)),
                                            {clock, random}, program, session::BookKind::throwaway);
    base::require(session.has_value(), "a logbook to begin with");
    return *std::move(session);
  }
  std::string sealed() {
    auto draft = session.snapshot();
    base::require(draft.has_value(), "a snapshot to begin with");
    for (bool all = false; !all;) {
      const auto step = (*draft)->copy(64);
      base::require(step.has_value(), "a snapshot that is copied");
      all = *step;
    }
    auto still = (*draft)->finish();
    base::require(still.has_value(), "a snapshot that ends");
    const auto file = still->sealPapers({{"a.csv", "1"}, {"b.pdf", "%PDF"}});
    base::require(file.has_value(), "papers to begin with");
    return *file;
  }
};

OpenBook& openBook() {
  static OpenBook book;
  return book;
}

} // namespace

void consentForm(FuzzBytes bytes) {
  const auto form = reports::ConsentTemplate::parse("form.txt", lettersOf(bytes));
  judge(form);
  if (!form) return;
  const auto sheet =
      form->fill("Larkmere", "000-555-0142", {"1043-0", "Mina Tolliver", "Cobble", "2", "6"});
  base::require(!sheet.parts.empty(), "a form of no line");
  base::require(form->fill("Larkmere", "000-555-0142", {}).parts.size() == sheet.parts.size(),
                "a blank form of other lines");
}

void scanned(FuzzBytes bytes) {
  const auto text = lettersOf(bytes);
  if (const auto code = kit::readPackageCode(text))
    base::require(!code->lot.empty(), "a package of no lot");
  kit::isProductCode(text);
  judge(base::readCode(text, base::sheetCodeShape));
  judge(base::readCode(text, base::recoveryCodeShape));
  judge(roster::parseChildNumber(text));
}

void typed(FuzzBytes bytes) {
  const std::string text(lettersOf(bytes));
  const auto today = base::Date::of(2026, 11, 17).value();
  judge(base::Date::parse(text));
  judge(base::parseNumericDate(text));
  judge(base::parsePlainDate(text));
  judge(base::parseNamedMonth(text));
  judge(base::parseExpiry(text));
  judge(base::parseClock(text));
  judge(base::parseInt(text));
  judge(base::parseDouble(text));
  judge(base::Uuid::parse(text));
  judge(base::soundText(text));
  judge(roster::gradeNumber(text));
  judge(roster::parseGrade(text));
  judge(roster::parseChildNumber(text));
  judge(roster::readSignedDate(text, today));
  judge(roster::parseHours(text));
  const auto people = roster::parsePeople(text);
  judge(people);
  judge(roster::parseCosts(text, people ? *people : std::vector<roster::RoleTime>{}));
  judge(dentition::Tooth::parse(text, dentition::Notation::universal));
  if (base::isUtf8(text)) base::folded(text);
}

void sealedPapers(FuzzBytes bytes) {
  judge(openBook().session.openPapers(lettersOf(bytes)));
}

std::vector<std::string> consentForms() {
  std::vector<std::string> all;
  for (const auto& shipped : reports::shippedForms())
    all.emplace_back(shipped.text);
  return all;
}

std::vector<std::string> scans() {
  return {"]d20100614141000012172704301"
          "0RF-2609",
          "(01)00614141000012(17)270430(10)RF-2609",
          "00614141000012",
          "1043-0",
          "7QK3M-8ZT2W-0V4HN-5XC9P",
          "0000-0000-0000-0000"};
}

std::vector<std::string> words() {
  return {"2026-11-17",
          "3/4/2019",
          "04/27",
          "1120",
          "13-Apr-2018",
          "9:30 pm",
          "1043-0",
          "K",
          "3",
          "16",
          "-12.5",
          "5:30",
          "hygienist 5.5, assistant 6:15",
          "staff 412.50, supplies 60, hygienist 42/h",
          "Mi\xC3\xB1"
          "a"};
}

std::vector<std::string> seals() {
  return {openBook().papers, std::string("Groovekeeper papers 1\n") + std::string(200, '\x21')};
}

} // namespace gk::test
