#include "reports/term/term_totals.h"
#include "ui/fixtures/later_fixture.h"

#include <algorithm>
#include <map>

using namespace gk;
using test::Later;
using test::must;

TEST_CASE("Four whole sealants are rechecked within twelve actions") {
  Later chair(365);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  CHECK(chair.text("recheckStory").contains(QStringLiteral("Sealed November 17, 2026")));
  chair.press("8");
  CHECK(chair.message().toStdString() == "");
  chair.press("888");
  const auto earlier = must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day));
  REQUIRE(earlier.size() == 4);
  for (const auto& one : earlier) {
    REQUIRE(one.newest.has_value());
    CHECK(one.newest->value.tooth() == followup::Held::whole);
    CHECK(one.newest->value.kind == followup::CheckKind::longTerm);
  }
  CHECK(chair.keys <= 12);
}

TEST_CASE("A part that lifts is resealed and a part that holds would be repaired", "[case-59]") {
  Later chair(60);
  chair.seat(chair.wren);
  chair.press("5");  // upper right: chewing surface whole
  chair.press("62"); // groove held in part, and it lifts
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("RESEAL TODAY")));
  chair.press(Qt::Key_Return);
  chair.press("888");
  REQUIRE(chair.shows("screeningPanel"));
  CHECK(chair.page->findChild<QWidget*>(QStringLiteral("tile16"))
            ->accessibleName()
            .contains(QStringLiteral("reseal")));
  chair.press("Z444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  chair.press("5");
  const auto placements = must(chair.clinic.session.placements(chair.wren));
  REQUIRE(placements.size() == 5);
  CHECK(placements.back().value.type == chairside::PlacementType::reseal);
  CHECK(placements.back().value.surfaces ==
        dentition::SurfaceSet{dentition::Surface::lingualGroove});
}

TEST_CASE("Without consent for a recheck no one looks", "[case-12]") {
  Later chair(365);
  for (const auto& old : must(chair.clinic.session.consents(chair.wren))) {
    auto narrower = old.value;
    narrower.allowed.remove(roster::Service::recheckAndReplace);
    must(chair.clinic.session.correctConsent(chair.clinic.by, old, narrower, "read again"));
  }
  chair.seat(chair.wren);
  CHECK(chair.shows("screeningPanel"));
}

TEST_CASE("The checker reads the material's name and to feel for a clear one", "[case-63]") {
  Later chair(365);
  chair.seat(chair.wren);
  const auto lots = must(chair.clinic.session.lots());
  const auto resin = std::find_if(lots.begin(), lots.end(),
                                  [&](const auto& lot) { return lot.id == chair.clinic.resin; });
  CHECK(chair.text("recheckStory").contains(QString::fromStdString(resin->value.material)));
  CHECK(chair.text("recheckStory").contains(QStringLiteral("clear sealant is hard to see")));
}

TEST_CASE("A check by another than the placer is blind", "[case-62]") {
  Later chair(365);
  chair.seat(chair.wren);
  CHECK_FALSE(chair.text("recheckStory").contains(QStringLiteral("non-blinded")));
  chair.press("8");
  const auto earlier = must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day));
  CHECK(std::any_of(earlier.begin(), earlier.end(),
                    [](const auto& one) { return one.newest && one.newest->value.blinded; }));
}

TEST_CASE("A check that something prompted is entered as one, with what prompted it",
          "[case-457]") {
  Later chair(60);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  chair.press("K");
  CHECK(chair.text("askQuestion").startsWith(QStringLiteral("What kind of check is it?")));
  chair.press("3");
  CHECK(chair.text("askQuestion").startsWith(QStringLiteral("What prompted it?")));
  chair.press(Qt::Key_Return); // nothing said: it asks on
  CHECK(chair.text("askQuestion").startsWith(QStringLiteral("What prompted it?")));
  chair.type(QStringLiteral("light read low"));
  CHECK(chair.text("recheckAnswers")
            .contains(QStringLiteral("Check: short-term, triggered: light read low")));
  chair.press("8");
  chair.press("K3"); // the next tooth: the same reason is offered
  chair.press(Qt::Key_Return);
  chair.press("8");
  chair.press("K2");
  chair.press("8");
  chair.press("8"); // and the last as its age says
  std::map<followup::CheckKind, int> kinds;
  for (const auto& one :
       must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day))) {
    REQUIRE(one.newest.has_value());
    const auto& check = one.newest->value;
    ++kinds[check.kind];
    CHECK(check.note == (check.kind == followup::CheckKind::shortTermTriggered
                             ? std::string("light read low")
                             : std::string()));
  }
  CHECK(kinds[followup::CheckKind::shortTermTriggered] == 2);
  CHECK(kinds[followup::CheckKind::shortTermSample] == 1);
  CHECK(kinds[followup::CheckKind::opportunistic] == 1);
}

TEST_CASE("In the one-year window the chair asks for no other kind of check", "[case-458]") {
  Later chair(365);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  const auto* kind = chair.page->findChild<QPushButton*>(QStringLiteral("checkKindButton"));
  REQUIRE(kind);
  CHECK_FALSE(kind->isEnabled());
  chair.press("K8");
  for (const auto& one : must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day)))
    if (one.newest) CHECK(one.newest->value.kind == followup::CheckKind::longTerm);
}

TEST_CASE("One key says that a reported loss brought the student, for all of that mouth",
          "[case-524]") {
  Later chair(365); // in the one-year window as at any age
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  const auto kindsNow = [&] {
    std::map<followup::CheckKind, int> kinds;
    for (const auto& one :
         must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day)))
      if (one.newest) ++kinds[one.newest->value.kind];
    return kinds;
  };
  CHECK_FALSE(chair.text("recheckAnswers").contains(QStringLiteral("reported loss")));
  chair.press("L");
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("Check: reported loss")));
  chair.press("L"); // and takes it back
  CHECK_FALSE(chair.text("recheckAnswers").contains(QStringLiteral("reported loss")));
  chair.press("L8"); // the next tooth without a key more
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("Check: reported loss")));
  chair.press("4Q"); // started over, the reason is the same
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("Check: reported loss")));
  chair.press("8");
  CHECK(kindsNow()[followup::CheckKind::reportedLoss] == 2);
  chair.press("L88"); // not for the rest
  CHECK(kindsNow()[followup::CheckKind::reportedLoss] == 2);
  CHECK(kindsNow()[followup::CheckKind::longTerm] == 2);
}

TEST_CASE("Another kind that is chosen takes the place of the reported loss", "[case-524]") {
  Later chair(60);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  chair.press("LK2");
  CHECK(chair.text("recheckAnswers").contains(QStringLiteral("Check: short-term sample")));
  chair.press("88"); // and the next tooth is as its age says
  std::map<followup::CheckKind, int> kinds;
  for (const auto& one : must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day)))
    if (one.newest) ++kinds[one.newest->value.kind];
  CHECK(kinds == std::map<followup::CheckKind, int>{{followup::CheckKind::shortTermSample, 1},
                                                    {followup::CheckKind::opportunistic, 1}});
}

TEST_CASE("A year after a reseal the chair judges the newest sealant and the report the first",
          "[case-456]") {
  Later chair(60);
  chair.seat(chair.wren);
  chair.press("44"); // upper right: both surfaces lost
  chair.press(Qt::Key_Return);
  chair.press("888");
  REQUIRE(chair.shows("screeningPanel"));
  chair.press("Z444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  chair.cure();
  chair.press("5");
  const auto placements = must(chair.clinic.session.placements(chair.wren));
  REQUIRE(placements.size() == 5);
  const auto& reseal = placements.back();
  REQUIRE(reseal.value.type == chairside::PlacementType::reseal);

  chair.goOn(305);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  chair.press("7"); // the upper right one
  CHECK(chair.text("recheckTitle").startsWith(QStringLiteral("Upper right first molar")));
  // Sixty days after the first ones, which were placed on November 17, 2026.
  CHECK(chair.text("recheckStory").contains(QStringLiteral("Sealed January 16, 2027")));
  CHECK(chair.text("recheckStory").contains(QStringLiteral("4 to check")));
  chair.press("8888");
  for (const auto& one :
       must(chair.clinic.session.earlierPlacements(chair.wren, chair.clinic.day))) {
    const auto& placement = one.placement;
    REQUIRE(one.newest.has_value());
    const bool isFirstOfIt =
        placement.value.tooth == reseal.value.tooth && placement.id != reseal.id;
    CHECK(one.newest->value.tooth() ==
          (isFirstOfIt ? followup::Held::lost : followup::Held::whole));
    CHECK((one.newest->value.day == chair.clinic.day) == !isFirstOfIt); // no one looked at it again
  }

  const auto day = must(chair.clinic.session.day(chair.clinic.day));
  const auto records =
      must(chair.clinic.session.termRecords(day.value.term, chair.clinic.clock.now().date()));
  const auto total = reports::termTotals(records).retention.total;
  CHECK(total.placed == 4); // the reseal is no first sealant
  CHECK(total.assessable == 4);
  CHECK(total.whole == 3);
  CHECK(total.lost == 1);
  CHECK(total.earlierLost == 1);
  CHECK(total.teethSeen == 4);
  CHECK(total.teethWhole == 4); // and every tooth is protected
}

TEST_CASE(
    "After a groove alone was sealed again, the chair asks of each surface once, and the core "
    "takes no answer on what lies beneath",
    "[case-487]") {
  Later chair(60);
  auto& book = chair.clinic.session;
  chair.seat(chair.wren);
  chair.press("562"); // upper right: the chewing surface holds, the groove lifts
  chair.press(Qt::Key_Return);
  chair.press("888");
  REQUIRE(chair.shows("screeningPanel"));
  chair.press("Z444");
  chair.press(Qt::Key_Return);
  REQUIRE(chair.shows("fieldPanel"));
  chair.press(Qt::Key_Return);
  chair.etchToFrosty();
  chair.cure();
  chair.press("5");
  const auto reseal = must(book.placements(chair.wren)).back();
  REQUIRE(reseal.value.surfaces == dentition::SurfaceSet{dentition::Surface::lingualGroove});

  chair.goOn(305);
  chair.seat(chair.wren);
  REQUIRE(chair.shows("recheckPanel"));
  chair.press("7"); // the upper right one
  CHECK(chair.text("recheckStory").contains(QStringLiteral("5 to check")));
  CHECK(
      chair.text("recheckAnswers").contains(QStringLiteral("sealed again since, not asked here")));
  const auto old = must(book.earlierPlacements(chair.wren, chair.clinic.day)).front();
  REQUIRE(old.placement.value.tooth == reseal.value.tooth);
  CHECK(old.left == dentition::SurfaceSet{dentition::Surface::occlusal});
  followup::RetentionCheck beneath{.placement = old.placement.id,
                                   .child = chair.wren,
                                   .day = chair.clinic.day,
                                   .kind = followup::CheckKind::longTerm,
                                   .occlusal = followup::Held::whole,
                                   .lingual = followup::Held::lost,
                                   .note = {}};
  CHECK(test::codeOf(book.enterCheck(chair.clinic.by, beneath)) == base::ErrorCode::ruleCheck);
  chair.press("5"); // the one surface that is asked
  chair.press(Qt::Key_Return);
  chair.press("8888");
  std::map<dentition::Tooth, int> answers;
  for (const auto& one : must(book.earlierPlacements(chair.wren, chair.clinic.day))) {
    REQUIRE(one.newest.has_value());
    const auto& check = one.newest->value;
    REQUIRE(check.day == chair.clinic.day);
    for (const auto held : {check.occlusal, check.buccal, check.lingual})
      answers[one.placement.value.tooth] += held == followup::Held::notSealed ? 0 : 1;
  }
  CHECK(answers[reseal.value.tooth] == 2);
}
