#include "reports/compare/standing_out.h"

#include "reports/compare/retention_report.h"
#include "reports/sample.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

using namespace gk;
using namespace gk::reports;
using gk::followup::Held;

namespace {

/// A value of a factor with its comparison, by hand: the p that goes with the odds ratio.
FactorValue heldAgainst(const std::string& label, FactorCode code, double oddsRatio, double logSe,
                        double p) {
  FactorValue value;
  value.line.label = label;
  value.line.code = code;
  value.line.assessable = 40;
  value.line.whole = 28;
  estimates::ClusteredComparison found{};
  found.teeth.oddsRatio = oddsRatio;
  found.children = 200;
  found.logVariance = logSe * logSe;
  found.p = p;
  value.against = found;
  value.p = p;
  return value;
}

FactorComparison comparedBy(Factor factor, std::vector<FactorValue> values) {
  FactorComparison out{factor, std::move(values), false, {}};
  out.total.assessable = 240;
  out.total.whole = 212;
  return out;
}

std::vector<FactorComparison> adjusted(std::vector<FactorComparison> compared) {
  adjustTogether(compared);
  return compared;
}

/// Two lights at one school; `lost` of 60 teeth under L-2 are lost, and 4 of 60 under L-1.
struct TwoLights : test::SampleTerm {
  roster::SchoolId here = school("Cobble Lantern Elementary", 142);
  roster::DayId then = dayLastYear(here, "2025-10-14");
  roster::DayId now = day(here, "2026-10-13");

  explicit TwoLights(int lost) {
    const auto first =
        make.row<kit::Light>({.tag = "L-1", .makersLeast = {}, .baseline = {}, .meter = "M"});
    const auto second =
        make.row<kit::Light>({.tag = "L-2", .makersLeast = {}, .baseline = {}, .meter = "M"});
    records.lights = {first, second};
    for (int i = 0; i < 60; ++i)
      for (const bool isSecond : {false, true}) {
        check(place(child(here), then, i % 2 ? 16 : 36), now,
              i < (isSecond ? lost : 4) ? Held::lost : Held::whole);
        records.placements.back().value.light = isSecond ? second.id : first.id;
      }
  }
};

/// Of one tooth: how many of how many held.
struct ToothCount {
  int iso;
  int whole;
  int of;
};
using ToothCounts = std::vector<ToothCount>;

/// Each tooth of a child of its own, a school for each list.
std::vector<FactorComparison> comparedTeeth(const std::vector<ToothCounts>& schools) {
  test::SampleTerm term;
  for (std::size_t s = 0; s < schools.size(); ++s) {
    const auto here = term.school("School " + std::to_string(s), 400);
    const auto then = term.dayLastYear(here, "2025-10-14");
    const auto now = term.day(here, "2026-10-13");
    for (const auto& [iso, whole, of] : schools[s])
      for (int i = 0; i < of; ++i)
        term.check(term.place(term.child(here), then, iso), now,
                   i < whole ? Held::whole : Held::lost);
  }
  constexpr std::array factors{Factor::arch, Factor::tooth};
  return compareFactors(RetentionFacts(term.records), factors, {}, {});
}

std::string notListed(const Table& table) {
  const auto said = std::ranges::find_if(
      table.notes, [](const auto& note) { return note.starts_with("Not listed"); });
  return said == table.notes.end() ? std::string() : *said;
}

} // namespace

TEST_CASE(
    "A value stands out exactly while its adjusted p is under 0.05 and its range excludes 1") {
  // log odds ratio -1, so t = 1/se on 199 degrees; p by hand from the normal within a hair.
  const auto strong = heldAgainst("L-2", 2, std::exp(-1.0), 0.30, 0.00103);
  const auto weak = heldAgainst("L-2", 2, std::exp(-1.0), 0.45, 0.0274);
  const auto none = [](const char* label) { return heldAgainst(label, 7, 1.05, 0.4, 0.90); };

  const auto alone = adjusted({comparedBy(Factor::light, {strong, none("L-3")})});
  REQUIRE(standingOut(alone).size() == 1);
  const auto found = standingOut(alone).front();
  CHECK(found.isLess);
  REQUIRE(found.oddsRange);
  CHECK(found.oddsRange->high < 1);

  // The same p among many looks no longer passes, and neither does the range of its step.
  const auto one = adjusted({comparedBy(Factor::light, {weak})});
  CHECK(standingOut(one).size() == 1);
  const auto two = adjusted({comparedBy(Factor::light, {weak, none("L-3")})});
  CHECK(standingOut(two).empty());
}

TEST_CASE("The range is as wide as Holm's step makes it: it excludes 1 when the step rejects") {
  // p-values 0.011, 0.02, 0.03 of z = 2.543, 2.326, 2.170 (normal; 199 degrees are close): Holm
  // rejects all three (0.033, 0.04, 0.03 -> 0.04) while Bonferroni would keep only the first.
  std::vector<FactorValue> values;
  for (const auto& [label, code, z, p] :
       {std::tuple("a", 1, 2.57, 0.011), std::tuple("b", 2, 2.35, 0.02),
        std::tuple("c", 3, 2.19, 0.03)})
    values.push_back(heldAgainst(label, static_cast<FactorCode>(code), std::exp(-z * 0.3), 0.3, p));
  const auto found = standingOut(adjusted({comparedBy(Factor::lot, values)}));
  REQUIRE(found.size() == 3);
  CHECK(found.at(0).label == "a");
  for (const auto& one : found) {
    REQUIRE(one.oddsRange);
    CHECK(one.oddsRange->high < 1);
  }
}

TEST_CASE("The strongest come first, five at most, and the rest are counted") {
  std::vector<FactorValue> values;
  for (int i = 1; i <= 7; ++i)
    values.push_back(heldAgainst("lot " + std::to_string(i), static_cast<FactorCode>(i),
                                 std::exp(-1.2 - 0.1 * i), 0.25, 0.0001 / i));
  const auto table = standingOutTable(adjusted({comparedBy(Factor::lot, values)}));
  REQUIRE(table.rows.size() == mostStandingOut);
  CHECK(table.rows.front().at(1).text().find("lot 7") != std::string::npos);
  CHECK(table.notes.front().starts_with("2 more values also stand out"));
  for (const auto& row : table.rows) {
    CHECK(row.at(1).text().find("odds ratio") != std::string::npos);
    CHECK_FALSE(row.at(2).isEmpty());
  }
}

TEST_CASE("Equal p-values are ordered by the odds ratio, and no bound is furthest") {
  auto unbounded = heldAgainst("never lost", 1, 1, 0.3, 0.0004);
  unbounded.against->teeth.oddsRatio.reset();
  unbounded.against->logVariance.reset();
  unbounded.permuted = Permuted::childrenInSchools;
  const auto found = standingOut(adjusted({comparedBy(
      Factor::isolation, {heldAgainst("near", 2, std::exp(1.2), 0.3, 0.0004),
                          heldAgainst("far", 3, std::exp(1.6), 0.3, 0.0004), unbounded})}));
  REQUIRE(found.size() == 3);
  CHECK(found[0].label == "never lost");
  CHECK(found[1].label == "far");
  CHECK_FALSE(found[0].oddsRange);
  CHECK(sentenceOf(found[0]).find("more often") != std::string::npos);
  CHECK(sentenceOf(found[0]).find("judged by permutation") != std::string::npos);
}

TEST_CASE("What is one tooth told again by its jaw or by the other teeth is not listed again",
          "[case-372]") {
  // 4 of 40 of the first tooth held and nearly all of the others: without it the jaws are alike.
  const auto kept = [](FactorValue value, int whole, int assessable) {
    value.line.whole = whole;
    value.line.assessable = assessable;
    value.bySchool = {{0, {whole, assessable}}};
    return value;
  };
  const auto untold = [&](const char* label, int whole, int assessable) {
    return kept(heldAgainst(label, 7, 1.05, .4, .90), whole, assessable);
  };
  auto teeth = comparedBy(Factor::tooth,
                          {kept(heldAgainst("upper left first molar, 14", 0, .02, .3, 1e-9), 4, 40),
                           kept(heldAgainst("lower left first molar, 19", 1, 8, .4, 1e-6), 58, 60),
                           untold("upper right first molar, 3", 58, 60),
                           untold("lower right first molar, 30", 38, 40)});
  auto jaws = comparedBy(Factor::arch, {kept(heldAgainst("upper", 0, .2, .3, 1e-7), 62, 100),
                                        kept(heldAgainst("lower", 1, 5, .3, 1e-7), 96, 100)});
  jaws.isPair = true;
  jaws.values[1].p.reset(); // compared once
  for (auto* one : {&teeth, &jaws}) {
    one->total.whole = 158;
    one->total.assessable = 200;
  }
  const auto table = standingOutTable(adjusted({teeth, jaws}));
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][1].text().find("tooth 14") != std::string::npos);
  const auto said = notListed(table);
  // By hand: 58 of 60 against 96 of 100, where it was 62 of 100 against 96 of 100; for tooth 19
  // 58 of 60 against 58 + 38 of 60 + 40, where it was against 158 - 58 of 200 - 60.
  CHECK(said.find("upper, without upper left first molar, 14: 0.7 points higher within schools "
                  "(with all teeth 34.0 points lower)") != std::string::npos);
  CHECK(said.find("lower left first molar, 19, without upper left first molar, 14: 0.7 points "
                  "higher within schools (with all teeth 25.2 points higher)") !=
        std::string::npos);
}

TEST_CASE("What is left of a jaw without a tooth of it is looked for within schools",
          "[case-339]") {
  // Truth by construction: at either school tooth 14 holds in 2 of 20 and the other teeth of both
  // jaws alike, 60% at one and 95% at the other; the first school has mostly upper teeth. Over all
  // teeth the upper jaw without tooth 14 keeps 67 of 100 against 88 of 100: more than half of the
  // 37 points before, though nothing is left of them at either school.
  const ToothCounts first{{16, 48, 80}, {26, 2, 20}, {36, 12, 20}};
  const ToothCounts second{{16, 19, 20}, {26, 2, 20}, {36, 76, 80}};
  const auto table = standingOutTable(comparedTeeth({first, second}));
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][1].text().find("tooth 14") != std::string::npos);
  const auto said = notListed(table);
  INFO(said);
  // By hand: -10 and -42.5 points, weighted 100 x 20 / 120 and 40 x 80 / 120.
  CHECK(said.find("upper, without upper left first molar, 14: no difference within schools (with "
                  "all teeth 30.0 points lower)") != std::string::npos);
}

TEST_CASE("A jaw that fails beyond one tooth is told of beside it", "[case-339]") {
  // The other way round: at both schools the other upper tooth fails too.
  const ToothCounts first{{16, 24, 60}, {26, 2, 40}, {36, 76, 80}};
  const ToothCounts second{{16, 32, 80}, {26, 2, 40}, {36, 57, 60}};
  const auto table = standingOutTable(comparedTeeth({first, second}));
  const auto isOfUpper = [](const auto& row) {
    return row.at(1).text().starts_with("Sealants on upper teeth");
  };
  CHECK(std::ranges::count_if(table.rows, isOfUpper) == 1);
}

TEST_CASE("What is one jaw told again by each of its teeth is not listed again", "[case-339]") {
  const ToothCounts here{{16, 24, 60}, {26, 24, 60}, {36, 57, 60}, {46, 57, 60}};
  const auto table = standingOutTable(comparedTeeth({here}));
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][1].text().starts_with("Sealants on upper teeth"));
  const auto said = notListed(table);
  INFO(said);
  CHECK(
      said.find("upper left first molar, 14, without lower teeth: no difference within schools") !=
      std::string::npos);
  CHECK(
      said.find("lower left first molar, 19, without upper teeth: no difference within schools") !=
      std::string::npos);
}

TEST_CASE("A jaw that is one tooth alone is told of once, with the tooth beside it", "[case-339]") {
  const ToothCounts here{{16, 12, 60}, {36, 57, 60}, {46, 57, 60}};
  const auto table = standingOutTable(comparedTeeth({here}));
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows[0][1].text().starts_with("Sealants on upper teeth"));
  CHECK(table.rows[0][2].text().find("divide the same way by tooth") != std::string::npos);
  CHECK(notListed(table).find("upper left") == std::string::npos);
}

TEST_CASE("A jaw whose teeth are both told of has nothing left to compare", "[case-339]") {
  const ToothCounts here{{16, 6, 60}, {26, 60, 60}, {36, 45, 60}, {46, 45, 60}};
  const auto table = standingOutTable(comparedTeeth({here}));
  INFO(notListed(table));
  CHECK(notListed(table).find("nothing left to compare it with") != std::string::npos);
}

TEST_CASE("A light below its expected range without passing is told of in a note, and only then") {
  const auto noteOf = [](estimates::FunnelPlace place, double p) {
    auto value = heldAgainst("L-2", 2, 0.5, 0.4, p);
    estimates::Departure departure{};
    departure.place = place;
    value.funnel = departure;
    const auto table = standingOutTable(
        adjusted({comparedBy(Factor::light, {value, heldAgainst("L-3", 3, 1.0, 0.4, 0.99)})}));
    std::string notes;
    for (const auto& note : table.notes)
      notes += note;
    return notes.find("below its expected range") != std::string::npos &&
           notes.find("light L-2 (70.0%)") != std::string::npos;
  };
  CHECK(noteOf(estimates::FunnelPlace::below, 0.08));
  CHECK(noteOf(estimates::FunnelPlace::farBelow, 0.08));
  CHECK_FALSE(noteOf(estimates::FunnelPlace::within, 0.08));
  CHECK_FALSE(noteOf(estimates::FunnelPlace::above, 0.08));
}

TEST_CASE("No sentence names a person, whose figures count among the looks") {
  const auto operators = comparedBy(Factor::placedBy, {heldAgainst("OF", 1, 0.2, 0.3, 1e-6)});
  const auto table = standingOutTable(adjusted({operators}));
  REQUIRE(table.rows.size() == 1);
  CHECK(table.rows.front().at(1).text().find("OF") == std::string::npos);
  CHECK(table.notes.back().starts_with("Operators are not listed"));
  const auto weak = heldAgainst("L-2", 2, std::exp(-1.0), 0.45, 0.0274);
  CHECK(standingOut(adjusted({comparedBy(Factor::light, {weak}), operators})).size() == 1);
  const auto dull = comparedBy(Factor::placedBy, {heldAgainst("OF", 1, 1.0, 0.3, 0.99)});
  CHECK(standingOut(adjusted({comparedBy(Factor::light, {weak}), dull})).empty());
}

TEST_CASE("The retention report opens with the light that fails, and says so when none does") {
  const TwoLights failing(24);
  const auto opening = retentionReport(failing.records).front();
  CHECK(opening.title == "What stands out");
  REQUIRE(opening.rows.size() == 1);
  const auto sentence = opening.rows.front().at(1).text();
  // L-1 kept 56 of 60, L-2 36 of 60; of two values the one that kept less is told of.
  CHECK(sentence.starts_with("Sealants cured under light L-2 were fully retained less often than "
                             "L-1: 60.0% of 60 (95% CI "));
  CHECK(sentence.find("against 93.3% of 60; odds ratio 0.") != std::string::npos);
  CHECK(opening.rows.front().at(2).text().find("meter log") != std::string::npos);

  const TwoLights alike(5);
  const auto dull = retentionReport(alike.records).front();
  REQUIRE(dull.rows.size() == 1);
  CHECK(dull.rows.front().at(1).text().starts_with("Nothing stands out: of "));

  test::SampleTerm bare;
  const auto empty = retentionReport(bare.records).front();
  REQUIRE(empty.rows.size() == 1);
  CHECK(empty.rows.front().at(1).text().starts_with("Nothing can be compared yet"));
}

TEST_CASE("A sentence that goes by strata does not stand beside shares that say the opposite",
          "[case-360]") {
  // Truth by construction: at either school L-2 keeps less than L-1 (80 of 100 against 19 of 20,
  // 2 of 20 against 50 of 100); over both it keeps 82 of 120 against 69 of 120.
  test::SampleTerm term;
  const auto one =
      term.make.row<kit::Light>({.tag = "L-1", .makersLeast = {}, .baseline = {}, .meter = "M"});
  const auto two =
      term.make.row<kit::Light>({.tag = "L-2", .makersLeast = {}, .baseline = {}, .meter = "M"});
  term.records.lights = {one, two};
  struct Group {
    const base::Recorded<kit::Light>& light;
    int whole;
    int of;
  };
  const std::vector<std::vector<Group>> schools{{{two, 80, 100}, {one, 19, 20}},
                                                {{two, 2, 20}, {one, 50, 100}}};
  for (std::size_t s = 0; s < schools.size(); ++s) {
    const auto here = term.school("School " + std::to_string(s), 200);
    const auto then = term.dayLastYear(here, "2025-10-14");
    const auto now = term.day(here, "2026-10-13");
    for (const auto& [light, whole, of] : schools[s])
      for (int i = 0; i < of; ++i) {
        const auto placement = term.place(term.child(here), then, 16);
        term.records.placements.back().value.light = light.id;
        term.check(placement, now, i < whole ? Held::whole : Held::lost);
      }
  }
  constexpr std::array factors{Factor::light};
  const auto found = standingOut(compareFactors(RetentionFacts(term.records), factors, {}, {}));
  REQUIRE(found.size() == 1);
  const auto words = sentenceOf(found.front());
  INFO(words);
  CHECK(words.starts_with("Sealants cured under light L-2 were fully retained less often than L-1 "
                          "on the same type of tooth at the same school: odds ratio 0."));
  CHECK(words.find("Over all teeth the percentages do not show it (68.3% of 120") !=
        std::string::npos);
  CHECK(words.find("against 57.5% of 120)") != std::string::npos);
}

TEST_CASE("That nothing stands out is said of what was tried, each way", "[case-360]") {
  const auto wordsOf = [](const std::vector<FactorComparison>& compared) {
    return standingOutTable(adjusted(compared)).rows.front().at(1).text();
  };
  const auto dull = heldAgainst("L-2", 2, 0.9, 0.4, 0.8);
  CHECK(wordsOf({comparedBy(Factor::light, {dull})}) ==
        "Nothing stands out: of 1 comparison, none has an adjusted p under 0.05.");
  CHECK(wordsOf({comparedBy(Factor::light, {dull}),
                 comparedBy(Factor::placedBy, {heldAgainst("OF", 1, 0.2, 0.3, 1e-6)})}) ==
        "Nothing stands out apart from operators: of 2 comparisons, no other has an adjusted p "
        "under 0.05.");
  // By permutation p is small, though the range of the odds ratio holds 1.
  CHECK(wordsOf({comparedBy(Factor::light, {heldAgainst("L-2", 2, 0.6, 0.4, 0.01)})}) ==
        "Nothing stands out: of 1 comparison, none has an adjusted p under 0.05 and an odds ratio "
        "whose adjusted CI excludes 1.");
}
