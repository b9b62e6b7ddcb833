#include "ui/drafts/chair_work.h"
#include "ui/drafts/mouth_faces.h"
#include "ui/drafts/screening_draft.h"
#include "ui/keys/ask_bar.h"
#include "ui/mouth/mouth_map.h"
#include "ui/support/text.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"

#include <catch2/catch.hpp>

#include <QKeyEvent>
#include <QLabel>
#include <QSignalSpy>
#include <QTest>

using namespace gk;
using dentition::toothAt;
using ui::Mark;
using ui::ToothState;

TEST_CASE("The corners of the number pad are the corners of the mouth as it is seen") {
  const auto from = toothAt(47);
  CHECK(ui::toothForKey(Qt::Key_7, from) == toothAt(16));
  CHECK(ui::toothForKey(Qt::Key_9, from) == toothAt(26));
  CHECK(ui::toothForKey(Qt::Key_1, from) == toothAt(46));
  CHECK(ui::toothForKey(Qt::Key_3, from) == toothAt(36));
  CHECK(ui::toothForKey(Qt::Key_7, toothAt(16)) == toothAt(17));
  CHECK(ui::toothForKey(Qt::Key_Left, toothAt(16)) == toothAt(17));
  CHECK(ui::toothForKey(Qt::Key_Left, toothAt(17)) == toothAt(17));
  CHECK(ui::toothForKey(Qt::Key_Down, toothAt(26)) == toothAt(36));
  CHECK_FALSE(ui::toothForKey(Qt::Key_5, from).has_value());
}

TEST_CASE("The child's right is on the viewer's left with the words on both sides") {
  ui::MouthMap map;
  map.setFaces(ui::facesOf({.notation = dentition::Notation::universal}));
  map.resize(800, 500);
  map.show();
  QStringList words;
  for (const auto* label : map.findChildren<QLabel*>())
    words += label->text();
  CHECK(words.contains(QStringLiteral("◀ CHILD'S RIGHT")));
  CHECK(words.contains(QStringLiteral("CHILD'S LEFT ▶")));
  const auto* right = map.findChild<QWidget*>(QStringLiteral("tile16"));
  const auto* left = map.findChild<QWidget*>(QStringLiteral("tile26"));
  const auto* below = map.findChild<QWidget*>(QStringLiteral("tile46"));
  REQUIRE(right != nullptr);
  REQUIRE(left != nullptr);
  REQUIRE(below != nullptr);
  CHECK(right->x() < left->x());
  CHECK(right->y() < below->y());
}

TEST_CASE(
    "A buccal pit points to the cheek and a lingual groove to the tongue, seen from the front") {
  using dentition::Surface;
  CHECK(ui::tabSide(toothAt(16), Surface::lingualGroove) == ui::TabSide::right);
  CHECK(ui::tabSide(toothAt(26), Surface::lingualGroove) == ui::TabSide::left);
  CHECK(ui::tabSide(toothAt(46), Surface::buccalPit) == ui::TabSide::left);
  CHECK(ui::tabSide(toothAt(36), Surface::buccalPit) == ui::TabSide::right);
  CHECK(ui::tabSide(toothAt(11), Surface::buccalPit) == ui::TabSide::top);
  CHECK_FALSE(ui::tabSide(toothAt(16), Surface::occlusal).has_value());
}

TEST_CASE("Other teeth have a row of their own that covers no molar") {
  const ui::Arch arch(QSize(760, 560), 36, 3);
  for (const auto& molar : dentition::permanentMolars())
    for (int place = 0; place < 3; ++place)
      CHECK_FALSE(arch.molar(molar).intersects(arch.other(place)));
  CHECK(QRect(0, 0, 760, 560).contains(arch.other(2)));
}

TEST_CASE("Every state has a mark of its own and words beside it") {
  ui::ScreeningDraft draft({}, true);
  const auto face = [&](ToothState state) {
    draft = ui::ScreeningDraft({}, true);
    draft.set(toothAt(16), state);
    return ui::faceOf(toothAt(16),
                      {.notation = dentition::Notation::universal, .findings = draft.teeth()});
  };
  CHECK(face(ToothState::sound).mark == Mark::seal);
  CHECK(face(ToothState::sound).spoken.toStdString() ==
        "Upper right first: sound, seal occlusal and lingual.");
  CHECK(face(ToothState::early).mark == Mark::sealEarly);
  CHECK(face(ToothState::cavity).mark == Mark::refer);
  CHECK(face(ToothState::filled).mark == Mark::filled);
  CHECK(face(ToothState::crown).mark == Mark::crown);
  CHECK(face(ToothState::gone).mark == Mark::gone);
  CHECK(face(ToothState::notUp).mark == Mark::notUp);
  CHECK(face(ToothState::partUp).mark == Mark::partUp);
  CHECK(face(ToothState::ours).mark == Mark::whole);
  CHECK(face(ToothState::oursInPart).word.toStdString() == "REPAIR");
  CHECK(face(ToothState::elsewhere).mark == Mark::elsewhere);
}

TEST_CASE("The group key fills only second molars of which nothing is said", "[case-26]") {
  ui::ScreeningDraft draft({}, true);
  draft.set(toothAt(17), ToothState::sound);
  draft.setSecondMolarsNotUp();
  CHECK(draft.find(toothAt(17))->presence == chairside::Presence::erupted);
  CHECK(draft.find(toothAt(47))->presence == chairside::Presence::unerupted);
  CHECK(draft.find(toothAt(16)) == nullptr);
}

TEST_CASE("A tooth partly up is sealed where gum leaves it free", "[case-26]") {
  ui::ScreeningDraft draft({}, true);
  draft.set(toothAt(46), ToothState::gumOverCompanion);
  draft.set(toothAt(46), ToothState::sound, dentition::Surface::occlusal);
  const auto* finding = draft.find(toothAt(46));
  CHECK(finding->decision == chairside::Decision::seal);
  CHECK(finding->toSeal == dentition::SurfaceSet{dentition::Surface::occlusal});
}

TEST_CASE("Under an operculum each of the three choices is one key away and marks a revisit",
          "[case-27]") {
  ui::ScreeningDraft draft({}, true);
  draft.set(toothAt(46), ToothState::operculum);
  draft.set(toothAt(46), ToothState::sound, dentition::Surface::occlusal);
  std::set<chairside::Decision> seen;
  for (int press = 0; press < 11; ++press) {
    seen.insert(draft.find(toothAt(46))->decision);
    if (draft.find(toothAt(46))->decision == chairside::Decision::interim)
      CHECK(draft.find(toothAt(46))->revisit);
    draft.changeDecision(toothAt(46));
  }
  CHECK(seen.contains(chairside::Decision::watch));
  CHECK(seen.contains(chairside::Decision::interim));
  CHECK(seen.contains(chairside::Decision::seal));
}

TEST_CASE("A cavity is never offered for sealing however often the decision is changed",
          "[case-31]") {
  ui::ScreeningDraft draft({}, true);
  draft.set(toothAt(46), ToothState::cavity);
  for (int press = 0; press < 11; ++press) {
    CHECK_FALSE(chairside::isTreatment(draft.find(toothAt(46))->decision));
    draft.changeDecision(toothAt(46));
  }
}

TEST_CASE("Without consent for sealants a sound tooth is proposed as not allowed") {
  ui::ScreeningDraft draft({}, false);
  draft.set(toothAt(16), ToothState::sound);
  CHECK(draft.find(toothAt(16))->decision == chairside::Decision::notAllowedByConsent);
}

TEST_CASE("Groups go right before left and never mix repairs or interim covers with sealants") {
  ui::ScreeningDraft draft({}, true);
  for (int iso : {16, 26, 36})
    draft.set(toothAt(iso), ToothState::sound);
  draft.set(toothAt(46), ToothState::oursInPart);
  draft.setSecondMolarsNotUp();
  draft.answer(0);
  draft.answer(0);
  draft.answer(0);
  REQUIRE(draft.missing().empty());
  const base::Uuid any{};
  const auto screening = draft.build(roster::ChildId(any), roster::DayId(any));
  std::vector<dentition::Tooth> begun;
  auto group = ui::nextGroup(screening, begun, ui::WorkOrder::halves);
  REQUIRE(group.has_value());
  CHECK(group->title == "Right side");
  REQUIRE(group->teeth.size() == 1);
  begun.push_back(toothAt(16));
  group = ui::nextGroup(screening, begun, ui::WorkOrder::halves);
  REQUIRE(group.has_value());
  begun.push_back(toothAt(46));
  group = ui::nextGroup(screening, begun, ui::WorkOrder::halves);
  REQUIRE(group.has_value());
  CHECK(group->title == "Left side");
  CHECK(group->teeth.size() == 2);
  CHECK(ui::nextGroup(screening, begun, ui::WorkOrder::singleTeeth)->title ==
        "Upper left first molar");
}

TEST_CASE("The timer counts on past its target and says when it is reached") {
  base::ManualClock clock({});
  ui::TimerView timer(clock);
  QSignalSpy reached(&timer, &ui::TimerView::reachedTarget);
  timer.start(QStringLiteral("Etch"), base::Seconds(2));
  CHECK_FALSE(timer.accepts()); // the bounce of the press that started it
  for (int second = 0; second < 3; ++second) {
    clock.advance(std::chrono::seconds(1));
    timer.tick();
  }
  CHECK(timer.text() == QStringLiteral("3.0"));
  CHECK(reached.count() == 1);
  CHECK(timer.stop() == std::chrono::seconds(3));
}

TEST_CASE("The wall clock does not move a timer", "[case-21]") {
  base::ManualClock clock({});
  ui::TimerView timer(clock);
  timer.start(QStringLiteral("Etch"), base::Seconds(20));
  clock.setWall({base::Instant{std::chrono::hours(5)}, std::chrono::minutes(0)});
  CHECK(timer.elapsed() == base::Milliseconds(0));
}

TEST_CASE("Troubles queue in the strip and an act that succeeds settles them") {
  ui::MessageStrip strip;
  strip.say(QStringLiteral("news"));
  strip.post(ui::describe({base::ErrorCode::ruleCure, "one"}));
  strip.post(ui::describe({base::ErrorCode::ruleStep, "two"}));
  CHECK(strip.text().contains(QStringLiteral("One")));
  strip.dismiss();
  CHECK(strip.text().contains(QStringLiteral("Two")));
  strip.settle();
  CHECK(strip.text().isEmpty());
}

TEST_CASE("Every error says what happened and what is lost and what to do now") {
  for (const auto code : base::allErrorCodes()) {
    const auto message = ui::describe({code, "the detail"});
    INFO(base::errorName(code));
    CHECK_FALSE(message.happened.isEmpty());
    CHECK_FALSE(message.lost.isEmpty());
    CHECK_FALSE(message.now.isEmpty());
    CHECK(ui::inOneLine(message).contains(QStringLiteral("The detail.")));
  }
}

TEST_CASE("A question is answered by digit or Enter and left by Escape") {
  ui::AskBar ask;
  int chosen = -1;
  const QStringList options{QStringLiteral("a"), QStringLiteral("b")};
  const auto press = [&](Qt::Key key) {
    ask.press(QKeyEvent(QEvent::KeyPress, key, Qt::NoModifier));
  };
  ask.choose(QStringLiteral("?"), options, [&](int option) { chosen = option; });
  press(Qt::Key_2);
  CHECK(chosen == 1);
  ask.choose(QStringLiteral("?"), options, [&](int option) { chosen = option; });
  press(Qt::Key_Return);
  CHECK(chosen == 0);
  ask.choose(QStringLiteral("?"), options, [&](int option) { chosen = option + 10; });
  press(Qt::Key_Escape);
  CHECK(chosen == 0);
  CHECK_FALSE(ask.isAsking());
}
