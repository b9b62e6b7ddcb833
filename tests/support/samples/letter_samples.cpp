#include "support/samples/letter_samples.h"

#include <catch2/catch.hpp>

#include <algorithm>

namespace gk::test {

using chairside::Urgency;
using chairside::UrgentReason;
using dentition::toothAt;
using followup::LetterVariant;
using reports::LetterFacts;
using reports::Phoned;

namespace {

base::Date date(const char* iso) {
  return base::Date::parse(iso).value();
}

std::vector<dentition::Tooth> teeth(const std::vector<int>& iso) {
  std::vector<dentition::Tooth> made;
  for (const int one : iso)
    made.push_back(toothAt(one));
  return made;
}

LetterFacts about(LetterVariant variant) {
  LetterFacts facts;
  facts.variant = variant;
  return facts;
}

LetterFacts sealed() {
  auto facts = about(LetterVariant::sealed);
  facts.sealed = teeth({16, 26, 36, 46});
  facts.varnish = true;
  return facts;
}

LetterFacts early() {
  auto facts = about(LetterVariant::referralEarly);
  facts.sealed = teeth({16, 26, 36});
  facts.mayHaveDecay = teeth({46});
  facts.decay = true;
  facts.varnish = true;
  facts.urgency = Urgency::early;
  facts.dentistBy = date("2026-12-29");
  return facts;
}

LetterFacts urgent(UrgentReason reason, Phoned phoned) {
  auto facts = about(LetterVariant::referralUrgent);
  facts.unfinished = teeth({16, 26, 36, 46});
  facts.urgency = Urgency::urgent;
  facts.reason = reason;
  facts.dentistBy = date("2026-11-19");
  facts.phoned = phoned;
  facts.decay = true;
  return facts;
}

std::vector<LetterSample> plainSamples() {
  auto unfinished = about(LetterVariant::sealedUnfinished);
  unfinished.sealed = teeth({16, 46});
  unfinished.unfinished = teeth({26, 36});
  auto notTreated = about(LetterVariant::notTreated);
  notTreated.unfinished = teeth({16});
  auto whole = about(LetterVariant::recheckWhole);
  whole.kept = 4;
  auto repaired = about(LetterVariant::recheckRepaired);
  repaired.kept = 2;
  repaired.repaired = teeth({36});
  repaired.resealed = teeth({26});
  repaired.varnish = true;
  auto stopped = about(LetterVariant::stopped);
  stopped.sealed = teeth({16, 46});
  stopped.unfinished = teeth({26, 36});
  auto interim = sealed();
  interim.sealed = teeth({16, 26, 36});
  interim.covered = teeth({46});
  auto one = sealed();
  one.sealed = teeth({36});
  one.unfinished = teeth({46});
  one.variant = LetterVariant::sealedUnfinished;
  return {{"all fine", about(LetterVariant::allFine)},
          {"sealed", sealed()},
          {"sealed, one", one},
          {"sealed, interim", interim},
          {"sealed, unfinished", unfinished},
          {"not treated", notTreated},
          {"recheck, whole", whole},
          {"recheck, repaired", repaired},
          {"absent", about(LetterVariant::absent)},
          {"stopped", stopped}};
}

} // namespace

std::vector<LetterSample> letterSamples() {
  auto samples = plainSamples();
  auto manyHoles = early();
  manyHoles.sealed.clear();
  manyHoles.mayHaveDecay = teeth({36, 46});
  auto noSpot = early();
  noSpot.decay = false;
  noSpot.mayHaveDecay.clear();
  samples.push_back({"referral, early", early()});
  samples.push_back({"referral, early, many", manyHoles});
  samples.push_back({"referral, early, no cavity", noSpot});
  samples.push_back({"referral, urgent", urgent(UrgentReason::swelling, Phoned::reached)});
  samples.push_back({"referral, urgent, tried", urgent(UrgentReason::pain, Phoned::tried)});
  samples.push_back({"referral, urgent, no call", urgent(UrgentReason::trauma, Phoned::no)});
  samples.push_back({"replaces", sealed(), true});
  samples.push_back({"to a pupil", early(), false, true});
  samples.push_back({"interpreter", sealed(), false, false, "Tagalog"});
  return samples;
}

reports::LetterTemplates shippedLetters() {
  reports::LetterTemplates templates;
  for (const auto& shipped : reports::shippedTemplates()) {
    auto made = reports::LetterTemplate::parse(std::string(shipped.file), shipped.text);
    INFO(shipped.file << ": " << (made ? "" : made.error().detail));
    REQUIRE(made);
    templates.add(*std::move(made));
  }
  return templates;
}

std::string shippedText(std::string_view file) {
  const auto& all = reports::shippedTemplates();
  const auto at = std::ranges::find(all, file, &reports::ShippedTemplate::file);
  REQUIRE(at != all.end());
  return std::string(at->text);
}

reports::LetterText written(const reports::LetterTemplates& templates, const LetterSample& sample,
                            const std::string& language) {
  reports::LetterReader reader{0, "Tess Tolliver", language};
  if (sample.student) reader = {followup::toStudent, "Mina", language};
  if (!sample.language.empty()) reader.language = sample.language;
  std::optional<base::Date> replaces;
  if (sample.replaces) replaces = date("2026-11-17");
  return reports::writeLetter(templates,
                              {"Larkmere County School Sealant Team", "000-555-0142",
                               "Cobble Lantern Elementary", date("2026-11-17")},
                              {"Wilhelmina Tolliver-Reed", "Mina", "6", {reader}}, reader,
                              sample.facts, replaces);
}

std::string letterText(const LetterSample& sample, const std::string& language) {
  return reports::toText(written(shippedLetters(), sample, language));
}

const LetterSample& sampleCalled(const std::string& name) {
  static const auto all = letterSamples();
  const auto at = std::ranges::find(all, name, &LetterSample::name);
  REQUIRE(at != all.end());
  return *at;
}

} // namespace gk::test
