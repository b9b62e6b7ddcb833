#include "reports/day/close_out_tables.h"
#include "reports/records/inputs.h"
#include "ui/close_out/close_out_page.h"
#include "ui/fixtures/chair_fixture.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/lists/report_browser.h"

#include <QListWidget>

using namespace gk;
using namespace gk::test;

namespace {

roster::ConsentState stateOf(session::Session& book, roster::ChildId child) {
  return must(book.consents(child)).back().value.state;
}

constexpr int withdrawn = 3; // of the outcomes asked for
constexpr const char* told = "by phone, mother; taken by IM";

} // namespace

TEST_CASE("Withdrawn at the close-out asks who and how, and the form says so from then on") {
  Desk desk;
  const auto child = desk.clinic.child("Jory");
  desk.clinic.end(child, chairside::DayEnd::absent);
  ui::CloseOutPage page(desk.context, nullptr);
  desk.listen(page);
  showActive(page);
  page.setFocus();
  SECTION("said") {
    desk.prompter.choices = {withdrawn};
    desk.prompter.texts = {QString::fromUtf8(told)};
    page.findChild<ui::ReportBrowser*>()->choose(reports::close_out::eachChild);
    press(page, Qt::Key_O, Qt::AltModifier);
    CHECK(stateOf(desk.clinic.session, child) == roster::ConsentState::withdrawn);
    const auto records = must(desk.clinic.session.dayRecords(desk.clinic.day));
    CHECK(records.outcomes.back().value.end == chairside::DayEnd::withdrawn);
  }
  SECTION("backed out") {
    desk.prompter.choices = {withdrawn};
    page.findChild<ui::ReportBrowser*>()->choose(reports::close_out::eachChild);
    press(page, Qt::Key_O, Qt::AltModifier);
    CHECK(stateOf(desk.clinic.session, child) == roster::ConsentState::yes);
    const auto records = must(desk.clinic.session.dayRecords(desk.clinic.day));
    CHECK(records.outcomes.back().value.end == chairside::DayEnd::absent);
  }
}

TEST_CASE("A child stopped because consent is withdrawn cannot be seated again", "[case-2]") {
  Chair chair;
  const auto child = chair.clinic.child("Jory", "Amberly");
  chair.seat(child);
  chair.screenFour();
  chair.press("X6");
  chair.type(QString::fromUtf8(told));
  REQUIRE(chair.shows("finishPanel"));
  CHECK(stateOf(chair.clinic.session, child) == roster::ConsentState::withdrawn);
  const auto screening = must(chair.clinic.session.screenings(child)).back().value;
  CHECK(std::ranges::count(screening.teeth, chairside::Decision::notAllowedByConsent,
                           &chairside::ToothFinding::decision) == 4);
  chair.press(Qt::Key_Return);
  const auto again = chair.clinic.session.seat(
      chair.clinic.by,
      {.child = child,
       .day = chair.clinic.day,
       .confirmed = {chairside::Identifier::spokenName, chairside::Identifier::slipScan}});
  CHECK(codeOf(again) == base::ErrorCode::ruleConsent);
}
