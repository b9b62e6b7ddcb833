#include "reports/merges/merge_table.h"
#include "session/second_laptop.h"
#include "ui/asking/decide_dialog.h"
#include "ui/close_out/merge_question.h"
#include "ui/fixtures/desk_fixture.h"

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
