#include "roster/consent/consent.h"

#include "roster/consent/display_names.h"

#include <algorithm>

namespace gk::roster {

using base::Error;
using base::ErrorCode;

namespace {

using Form = base::Recorded<Consent>;

bool isYes(ConsentState state) {
  return state == ConsentState::yes || state == ConsentState::yesWithLimits;
}

bool isAnswer(ConsentState state) {
  return isYes(state) || state == ConsentState::no;
}

/// A no rarely says until when. It answers for its own school year: at most twelve months.
base::Date heardOn(const Form& form) {
  return form.value.receivedOn.value_or(form.value.signedOn.value_or(form.stamp.at.date()));
}

bool isUndatedNo(const Form& form) {
  return form.value.state == ConsentState::no && !form.value.validUntil;
}

bool covers(const Form& recorded, base::Date on) {
  const Consent& form = recorded.value;
  if (isUndatedNo(recorded) && heardOn(recorded).plusMonths(12) < on) return false;
  return (!form.validFrom || *form.validFrom <= on) && (!form.validUntil || on <= *form.validUntil);
}

Standing refused(ConsentState state, std::string why) {
  Standing standing;
  standing.state = state;
  standing.why = std::move(why);
  return standing;
}

/// The newest of `forms` in `state`, or none.
const Form* newest(const std::vector<const Form*>& forms, ConsentState state) {
  const Form* found = nullptr;
  for (const Form* form : forms)
    if (form->value.state == state && (!found || found->stamp.entry < form->stamp.entry))
      found = form;
  return found;
}

/// Forms that all say yes: a service needs the tick of each, since neither wins by date.
Standing fromYes(const std::vector<const Form*>& forms, Service service, base::Date on) {
  const auto ticks = [&](const Form* form) { return form->value.allowed.has(service); };
  const auto* last =
      *std::ranges::max_element(forms, {}, [](const Form* form) { return form->value.signedOn; });
  const auto ticked = std::ranges::count_if(forms, ticks);
  Standing standing;
  standing.state = last->value.state;
  standing.allows = ticked == std::ssize(forms);
  const auto& signedOn = last->value.signedOn;
  standing.historyOverAYearOld = signedOn && signedOn->plusMonths(12) < on;
  if (!standing.allows)
    standing.why = (ticked == 0 ? "the form does not check: " : "only one of two forms checks: ") +
                   std::string(base::displayName(service));
  return standing;
}

} // namespace

base::Result<base::Done> checkForm(const Consent& form, base::Date today) {
  if (!isYes(form.state)) return base::Done{};
  const auto refuse = [](std::string why) {
    return Error{ErrorCode::ruleConsentForm,
                 std::move(why) + "; enter the form as incomplete and ask the guardian"};
  };
  if (!form.signedOn || !form.receivedOn) return refuse("the form has no signing or arrival date");
  if (*form.signedOn > *form.receivedOn || *form.receivedOn > today)
    return refuse("the form's dates are out of order");
  if (!form.validFrom || !form.validUntil || *form.validUntil < *form.validFrom)
    return refuse("the form does not say from when and through when it is valid");
  if (form.history == HistoryAnswered::no) return refuse("the health history is blank");
  if (form.allowed.isEmpty()) return refuse("the form says yes but checks nothing");
  if (form.allowed.has(Service::sealants) && !form.allowed.has(Service::screening))
    return refuse("sealants are checked but screening is not");
  if (form.signer == Relation::other && !form.signerReviewed)
    return refuse("whether the signer may sign has not been reviewed");
  return base::Done{};
}

Standing standing(std::span<const Form> forms, Service service, base::Date on) {
  std::vector<const Form*> inForce;
  bool lapsed = false;
  for (const auto& form : forms) {
    if (covers(form, on))
      inForce.push_back(&form);
    else
      lapsed = lapsed || isYes(form.value.state);
  }
  if (newest(inForce, ConsentState::onHold))
    return refused(ConsentState::onHold, "on hold: wait for the manager's decision");
  if (const Form* withdrawn = newest(inForce, ConsentState::withdrawn)) {
    auto standing =
        refused(ConsentState::withdrawn, "withdrawn " + withdrawn->stamp.at.words() +
                                             (withdrawn->value.note.empty() ? "" : ", ") +
                                             withdrawn->value.note);
    standing.since = withdrawn->stamp.at;
    return standing;
  }
  std::vector<const Form*> answers;
  std::ranges::copy_if(inForce, std::back_inserter(answers),
                       [](const Form* form) { return isAnswer(form->value.state); });
  std::erase_if(answers, [&](const Form* no) {
    return isUndatedNo(*no) && std::ranges::any_of(inForce, [&](const Form* yes) {
             return isYes(yes->value.state) && yes->value.term != no->value.term &&
                    yes->value.signedOn > heardOn(*no);
           });
  });
  const auto saysYes = [](const Form* form) { return isYes(form->value.state); };
  const auto yes = std::ranges::count_if(answers, saysYes);
  if (yes > 0 && yes < std::ssize(answers))
    return refused(ConsentState::onHold, "two forms disagree: neither counts, ask the manager");
  if (yes > 0) return fromYes(answers, service, on);
  if (!answers.empty()) return refused(ConsentState::no, "the guardian said no");
  if (newest(inForce, ConsentState::incomplete))
    return refused(ConsentState::incomplete, "the form is incomplete");
  return refused(ConsentState::notReturned,
                 lapsed ? "the last form is not valid on this date" : "no form has come back");
}

} // namespace gk::roster
