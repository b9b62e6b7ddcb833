#include "journeys/told.h"
#include "reports/day/close_out.h"

#include <algorithm>

using namespace gk;
using namespace gk::chairside;

namespace {

/// What one child's records of 17 November say.
class Visit {
 public:
  Visit(test::Told& told, const reports::DayRecords& day, const std::string& digits)
      : day_(day), child_(told.child(digits)) {}

  [[nodiscard]] DayEnd end() const {
    const auto at = std::ranges::find(day_.outcomes, child_, childOf);
    REQUIRE(at != day_.outcomes.end());
    return at->value.end;
  }
  [[nodiscard]] std::vector<int> sealed(PlacementType type = PlacementType::fresh) const {
    std::vector<int> teeth;
    for (const auto& row : day_.placements)
      if (row.value.child == child_ && row.value.attempt == Attempt::complete &&
          row.value.type == type)
        teeth.push_back(row.value.tooth.iso());
    std::ranges::sort(teeth);
    return teeth;
  }
  [[nodiscard]] const Placement& placement(int iso) const {
    const auto at = std::ranges::find_if(day_.placements, [&](const auto& row) {
      return row.value.child == child_ && row.value.tooth == dentition::toothAt(iso);
    });
    REQUIRE(at != day_.placements.end());
    return at->value;
  }
  [[nodiscard]] const Screening& screening() const {
    const auto at = std::ranges::find(day_.screenings, child_, childOf);
    REQUIRE(at != day_.screenings.end());
    return at->value;
  }
  [[nodiscard]] std::string varnish() const {
    const auto at = std::ranges::find(day_.varnishes, child_, childOf);
    if (at == day_.varnishes.end()) return "";
    return std::ranges::find(day_.lots, at->value.lot, &base::Recorded<kit::Lot>::id)
        ->value.material;
  }
  [[nodiscard]] std::vector<followup::ContactResult> calls() const {
    std::vector<followup::ContactResult> results;
    for (const auto& row : day_.contacts)
      if (row.value.child == child_ && row.value.channel == followup::Channel::phone)
        results.push_back(row.value.result);
    return results;
  }
  [[nodiscard]] roster::ChildId id() const { return child_; }

 private:
  static constexpr auto childOf = [](const auto& row) { return row.value.child; };
  const reports::DayRecords& day_;
  roster::ChildId child_;
};

const std::vector<int> allFour{16, 26, 36, 46};

void checkUsualAndEventful(test::Told& told, const reports::DayRecords& day) {
  const Visit mina(told, day, "1043");
  CHECK(mina.end() == DayEnd::sealedComplete);
  CHECK(mina.sealed() == allFour);
  CHECK(mina.varnish() == "Varnish Birch");

  const Visit osei(told, day, "1044");
  CHECK(osei.sealed() == allFour);
  CHECK(osei.placement(36).wetEvents == 1);
  CHECK(osei.placement(36).etches == 2);
  CHECK(osei.placement(26).etches == 1);
  const Visit otherOsei(told, day, "1051");
  CHECK(otherOsei.sealed() == allFour);
  CHECK(otherOsei.placement(26).interruptedCures == 1);
  CHECK(otherOsei.placement(26).cures == 1);
  CHECK(otherOsei.placement(26).light != otherOsei.placement(16).light);
  const auto card = test::must(told.book().identityCard(osei.id(), day.id));
  REQUIRE(card.sameNameOthers.size() == 1);
  CHECK(card.sameNameOthers.front().starts_with("1051-"));
}

void checkUnfinished(test::Told& told, const reports::DayRecords& day) {
  const Visit lupe(told, day, "1045");
  CHECK(lupe.sealed() == std::vector<int>{16, 26, 36});
  CHECK(lupe.screening().urgency == Urgency::early);
  CHECK(test::must(told.book().identity(lupe.id())).guardians.front().language == "Spanish");
  const auto referral =
      std::ranges::find(day.referrals, lupe.id(), [](const auto& row) { return row.value.child; });
  REQUIRE(referral != day.referrals.end());
  CHECK(referral->value.due.iso() == "2026-12-29");

  const Visit teodor(told, day, "1046");
  CHECK(teodor.end() == DayEnd::sealedUnfinished);
  CHECK(teodor.sealed().size() == 2);
  CHECK(teodor.varnish().empty());

  const Visit hana(told, day, "1052");
  CHECK(hana.end() == DayEnd::screenedNotTreated);
  CHECK(hana.screening().urgentReason == UrgentReason::swelling);
  CHECK(hana.sealed().empty());
  using followup::ContactResult;
  CHECK(hana.calls() == std::vector{ContactResult::noAnswer, ContactResult::reached});
}

void checkOutOfTheOrdinary(test::Told& told, const reports::DayRecords& day) {
  const Visit wren(told, day, "1047");
  CHECK(wren.sealed().empty());
  CHECK(wren.sealed(PlacementType::reseal) == std::vector<int>{26});
  const auto checks =
      std::ranges::count(day.checks, wren.id(), [](const auto& row) { return row.value.child; });
  CHECK(checks == 4);

  const Visit idris(told, day, "1048");
  CHECK(idris.sealed() == allFour);
  CHECK(std::ranges::count(idris.screening().teeth, Enamel::opacity, &ToothFinding::enamel) == 2);

  const Visit pia(told, day, "1049");
  CHECK(pia.sealed() == std::vector<int>{16, 26, 36});
  CHECK(pia.sealed(PlacementType::interim) == std::vector<int>{46});

  const Visit calla(told, day, "1050");
  CHECK(calla.sealed() == allFour);
  CHECK(calla.varnish() == "Varnish Alder");
}

void checkForms(test::Told& told, const reports::DayRecords& day) {
  const auto standing = [&](const std::string& digits) {
    return test::must(
        told.book().standing(told.child(digits), roster::Service::screening, day.day.date));
  };
  const auto jory = standing("1053");
  CHECK(jory.state == roster::ConsentState::withdrawn);
  REQUIRE(jory.since);
  CHECK(jory.since->text() == "2026-11-17 10:42");
  CHECK(Visit(told, day, "1053").end() == DayEnd::withdrawn);
  CHECK(standing("1054").state == roster::ConsentState::yes); // Nell
  CHECK(standing("1055").state == roster::ConsentState::no);  // Nils, her twin
  CHECK(standing("1056").state == roster::ConsentState::onHold);
  CHECK(test::must(told.book().findChildren("Hatherwick")).empty());
}

/// Every child seen went home with a letter; Lupe's is in Spanish, Hana's is urgent.
void checkLetters(test::Told& told, const reports::DayRecords& day,
                  const reports::CloseOut& sheet) {
  CHECK(sheet.counts.letters == sheet.counts.children);
  const auto letterTo = [&](const std::string& digits) {
    const auto child = told.child(digits);
    const auto at = std::ranges::find_if(
        day.letters, [&](const auto& letter) { return letter.value.child == child; });
    REQUIRE(at != day.letters.end());
    return at->value;
  };
  const auto lupe = letterTo("1045");
  CHECK(lupe.language == "Spanish");
  CHECK(lupe.variant == followup::LetterVariant::referralEarly);
  CHECK(lupe.state == followup::LetterState::handed);
  CHECK(letterTo("1052").variant == followup::LetterVariant::referralUrgent);
}

} // namespace

TEST_CASE("the last day shows its ten children and is signed and told twice is the same") {
  test::Told told(demo::Until::closed);
  const auto day = told.lastDay();
  checkUsualAndEventful(told, day);
  checkUnfinished(told, day);
  checkOutOfTheOrdinary(told, day);
  checkForms(told, day);

  const auto sheet = reports::closeOut(day);
  CHECK(sheet.closed);
  CHECK(sheet.balanced());
  CHECK(sheet.equation.screened == 15);
  CHECK(sheet.equation.screened + sheet.equation.absent + sheet.equation.declined == 17);
  CHECK(sheet.equation.withdrawn == 1);
  CHECK(sheet.equation.onHold == 1);
  checkLetters(told, day, sheet);

  test::Told again(demo::Until::closed);
  CHECK(test::must(demo::writePapers(told.folder())) ==
        test::must(demo::writePapers(again.folder())));
}
