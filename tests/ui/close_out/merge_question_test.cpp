#include "reports/merges/merge_table.h"
#include "session/second_laptop.h"
#include "ui/asking/decide_dialog.h"
#include "ui/close_out/merge_question.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/look/look.h"

#include <QDialogButtonBox>
#include <QListWidget>
#include <QTableWidget>

using namespace gk;
using namespace gk::test;

namespace {

/// Mina sealed on this laptop, and found with a cavity on the other.
class Conflict : public Desk {
 public:
  roster::ChildId mina = clinic.child("Mina", "Tolliver-Reed");

  Conflict() {
    Second second(clinic, "second.gkbook", 2);
    clinic.standardVisit(mina);
    clinic.clock.advance(std::chrono::minutes(5));
    seatOn(second.session, clinic, mina);
    auto screening = clinic.fourSound(mina);
    auto& tooth = screening.teeth.front();
    tooth.occlusal = {chairside::Condition::cavitated, chairside::Origin::notSealed};
    tooth.decision = chairside::Decision::refer;
    tooth.toSeal = {};
    screening.untreatedDecay = chairside::Tri::yes;
    screening.urgency = chairside::Urgency::urgent;
    screening.urgentReason = chairside::UrgentReason::pain;
    must(second.session.screen(clinic.by, screening));
    must(clinic.session.absorb(second.handOver()));
  }
  reports::CloseOut sheet() { return sheetOf(clinic); }
  base::Result<bool> answer() {
    return ui::answerQuestion(context, sheet().questions.at(0), clinic.day);
  }
};

} // namespace

TEST_CASE("Both records are in sight when a merge question is answered", "[case-106]") {
  Conflict desk;
  CHECK_FALSE(must(desk.answer())); // backed out
  REQUIRE(desk.prompter.shown.size() == 1);
  const auto& table = desk.prompter.shown.front();
  const auto marked =
      std::ranges::count_if(table.rows, [](const auto& row) { return !row.front().isEmpty(); });
  CHECK(marked >= 4);
  CHECK(std::ranges::any_of(table.rows, [](const auto& row) {
    return row[1] == "upper right first molar, 3" && row[3].text().starts_with("occlusal CAVITY");
  }));
  const auto& answers = desk.prompter.offered.front();
  REQUIRE(answers.size() == 3);
  CHECK(answers[0].contains(u"DROPS: cavity, upper right first molar, 3"_s));
  CHECK_FALSE(answers[1].contains(u"DROPS"_s));
}

TEST_CASE("The answer that drops a cavity is asked again in the window", "[case-106]") {
  Conflict desk;
  SECTION("no goes back with nothing written") {
    desk.prompter.choices = {0, 0};
    CHECK_FALSE(must(desk.answer()));
    REQUIRE(desk.prompter.decided.size() == 2);
    CHECK(desk.prompter.decided.back().contains(u"found more: cavity, upper right first molar"_s));
    CHECK(desk.prompter.decided.back().contains(u"Nothing is saved yet"_s));
    CHECK(desk.sheet().questions.size() == 1);
  }
  SECTION("Escape as well") {
    desk.prompter.choices = {0};
    CHECK_FALSE(must(desk.answer()));
    CHECK(desk.sheet().questions.size() == 1);
  }
  SECTION("yes drops it, and the answer says what") {
    desk.prompter.choices = {0, 1};
    CHECK(must(desk.answer()));
    const auto answered = desk.sheet().answered.at(0);
    CHECK(answered.words.find("dropped: cavity, upper right first molar, 3") != std::string::npos);
  }
  SECTION("the other visit is kept without a second question") {
    desk.prompter.choices = {1};
    CHECK(must(desk.answer()));
    CHECK(desk.prompter.decided.size() == 1);
    CHECK(desk.sheet().urgent.size() == 1);
  }
}

TEST_CASE("What is shown once and decided by is read whole, in large letters too", "[case-442]") {
  const int percent = GENERATE(100, 150);
  ui::dress({ui::Scheme::light, percent});
  const reports::Table sheet{
      "Recovery code of the logbook",
      {{"Program"}, {"Made on"}, {"Recovery code"}},
      {{"Larkmere County School Sealant Team", "November 17, 2026",
        "97H1M-UETUR-BH2E7-81YS1-CK4G2-60HB3-7Q2MN-55TRW"}},
      {"It unlocks the names: type it instead of the passphrase.",
       "Anyone with this sheet and the logbook can read the names. Keep it locked up, away from "
       "the laptop."}};
  ui::DecideDialog dialog(nullptr, u"It is shown only now. How do you keep it?"_s,
                          {u"Print it"_s, u"I wrote it down"_s}, &sheet);
  dialog.show();
  REQUIRE(QTest::qWaitForWindowExposed(&dialog));
  const auto& table = part<QTableWidget>(dialog, u"decideTable"_s);
  const QAbstractItemView& rows = table;
  INFO(percent << " %, " << dialog.width() << " x " << dialog.height());
  for (int column = 0; column < 3; ++column) {
    const auto cell = table.visualItemRect(table.item(0, column));
    CHECK(table.viewport()->rect().contains(cell));
    CHECK(rows.sizeHintForRow(0) <= table.rowHeight(0));
  }
  const auto& answers = *dialog.findChild<QListWidget*>();
  const auto& keys = *dialog.findChild<QDialogButtonBox*>();
  CHECK(answers.geometry().bottom() < keys.geometry().top());
  for (const auto* label : dialog.findChildren<QLabel*>())
    CHECK(label->heightForWidth(label->width()) <= label->height());
  ui::dress();
}

TEST_CASE("The table beside a question is to be read, and the keys choose an answer",
          "[case-106]") {
  Conflict desk;
  const auto question = desk.sheet().questions.at(0);
  const auto table = reports::mergeTable(question);
  ui::DecideDialog dialog(nullptr, u"Which is kept?"_s, {u"one"_s, u"other"_s}, &table);
  showActive(dialog);
  const auto& shown = part<QTableWidget>(dialog, u"decideTable"_s);
  CHECK(shown.rowCount() == static_cast<int>(table.rows.size()));
  CHECK(shown.isVisible());
  for (int row = 0; row < shown.rowCount(); ++row)
    CHECK(shown.item(row, 1)->font().bold() == !shown.item(row, 0)->text().isEmpty());
  press(dialog, Qt::Key_Return);
  CHECK(dialog.isVisible());
  press(dialog, Qt::Key_2);
  press(dialog, Qt::Key_Return);
  CHECK(dialog.result() == QDialog::Accepted);
  CHECK(dialog.chosen() == 1);
}
