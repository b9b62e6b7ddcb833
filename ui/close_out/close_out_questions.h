#pragma once

#include "reports/day/close_out.h"
#include "ui/asking/context.h"

namespace gk::ui {

/// What the close-out page asks, each an entry ready to be made; none when the person backed out.

/// Of the outcomes of a child whom no one treated today.
std::optional<chairside::DayOutcome> askOutcome(Prompter& prompter, const QString& name,
                                                roster::ChildId child, roster::DayId day);

std::optional<followup::ContactAttempt> askContact(Prompter& prompter, const QString& name,
                                                   roster::ChildId child, roster::DayId day);

/// Urgency and last day as the screening says; `early` where it says nothing.
std::optional<followup::Referral> askReferral(Prompter& prompter, const reports::CloseOut& sheet,
                                              roster::ChildId child, roster::DayId day);

/// What became of a referral, and who said so; false when the person backed out.
base::Result<bool> followReferral(Context& context, const base::Recorded<followup::Referral>& old,
                                  const QString& name);

/// Asks why the child's teeth without a reason were not finished, and notes it in the screening
/// that meant to treat them. False when nothing was noted: backed out, or no screening of the day
/// means one of them.
base::Result<bool> giveReason(Context& context, const reports::CloseOut& sheet,
                              roster::ChildId child, roster::DayId day);

/// Two of those who may sign on that date; the first for the clinical content. None when the person
/// backed out; `ruleCredential` when the team has no two who may.
base::Result<std::optional<roster::DayClosure>>
askSignatures(Prompter& prompter, const reports::Rows<roster::Member>& members, base::Date on,
              roster::DayId day);

/// Has each signer give what KeyVerbs::asksToSign says; false when one backed out. Fails as
/// KeyVerbs::openKey and showSigner.
base::Result<bool> askSigners(Context& context, const roster::DayClosure& closure);

} // namespace gk::ui
