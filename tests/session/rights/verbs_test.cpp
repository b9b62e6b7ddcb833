#include "session/rights/all_verbs.h"

#include <iostream>

using namespace gk;
using base::ErrorCode;
using session::DayMust;
using session::Verb;
using session::VerbRule;
using test::AllVerbs;
using test::must;

TEST_CASE("Every row of the verb table refuses what it says, called directly",
          "[verbs][case-130]") {
  AllVerbs clinic;
  int refusals = 0;
  const auto refused = [&](const VerbRule& row, const AllVerbs::Ask& ask, ErrorCode with) {
    INFO(row.name << ": " << base::errorName(with));
    const auto call = clinic.calls.find(row.verb);
    REQUIRE(call != clinic.calls.end());
    const auto code = call->second(ask);
    CHECK(code == with);
    ++refusals;
  };
  const auto able = clinic.by;
  for (const VerbRule& row : session::verbRules) {
    // Undo and redo look for something to take back before they ask who does it.
    const bool isUndo = row.verb == Verb::undo || row.verb == Verb::redo;
    if (row.verb == Verb::redo) continue;
    refused(row, {{}, clinic.mina, "why"}, ErrorCode::ruleCredential);
    refused(row, {{clinic.powerless, {}}, clinic.mina, "why"}, ErrorCode::ruleCredential);
    refused(row, {{clinic.hygienist, clinic.powerless}, clinic.mina, "why"},
            ErrorCode::ruleCredential);
    if (isUndo) continue;
    if (row.day == DayMust::beSigned)
      refused(row, {able, clinic.mina, "why"}, ErrorCode::ruleDayOpen);
    else if (row.asksReason)
      refused(row, {able, clinic.mina, "  "}, ErrorCode::ruleReason);
    const bool isOfField = row.verb == Verb::startTimer || row.verb == Verb::enterStep ||
                           row.verb == Verb::wet || row.verb == Verb::stopTeeth;
    if (row.asksSeated && !isOfField) // teeth are isolated only of a child who is seated
      refused(row, {able, clinic.waiting, "why"}, ErrorCode::ruleIdentity);
  }
  must(clinic.session.withdrawConsent(able, clinic.mina, "mother, by phone"));
  for (const VerbRule& row : session::verbRules)
    if (row.consent) refused(row, {able, clinic.mina, "why"}, ErrorCode::ruleConsent);
  std::cout << "verb table: " << session::verbRules.size() << " verbs, " << refusals
            << " refusals called\n";
}
