#include "reports/services/referral_report.h"

#include "reports/print/cells.h"
#include "reports/records/doubtful.h"
#include "reports/records/term_view.h"

#include <algorithm>

namespace gk::reports {

namespace {

using chairside::Urgency;
using followup::ContactAttempt;
using followup::Referral;
using followup::ReferralState;

/// One referral with all that was tried since.
struct Followed {
  const base::Recorded<Referral>* referral;
  base::Date made;
  std::vector<std::pair<base::Date, const ContactAttempt*>> attempts; ///< by date
  bool reached = false;
  int days = 0; ///< open until now, or until its outcome was noted

  [[nodiscard]] bool isOpen() const {
    return referral->value.state == ReferralState::open ||
           referral->value.state == ReferralState::treatmentStarted;
  }
};

class Tracker {
 public:
  Tracker(const TermView& view, base::Date today)
      : view_(view), contacts_(view.records.contacts, [](const auto&) { return true; }) {
    for (const auto& row : view.records.referrals)
      if (const auto made = view_.dateOf(row.value.day); made && *made <= today)
        found_.push_back(followed(row, *made, today));
    std::ranges::stable_sort(found_, [](const Followed& a, const Followed& b) {
      return std::tuple(!a.isOpen(), a.referral->value.urgency != Urgency::urgent, a.made) <
             std::tuple(!b.isOpen(), b.referral->value.urgency != Urgency::urgent, b.made);
    });
  }

  [[nodiscard]] const std::vector<Followed>& all() const { return found_; }
  [[nodiscard]] const TermView& view() const { return view_; }

 private:
  Followed followed(const base::Recorded<Referral>& row, base::Date made, base::Date today) const {
    Followed out{&row, made, {}};
    for (const auto* contact : contacts_.of(row.value.child)) {
      const auto on = view_.dateOf(contact->value.day);
      if (!on || *on < made || *on > today) continue;
      out.attempts.emplace_back(*on, &contact->value);
      const bool spoken = contact->value.channel == followup::Channel::phone ||
                          contact->value.channel == followup::Channel::message;
      out.reached =
          out.reached || (spoken && contact->value.result == followup::ContactResult::reached);
    }
    std::ranges::stable_sort(out.attempts, {}, [](const auto& one) { return one.first; });
    out.days = base::daysBetween(made, out.isOpen() ? today : row.stamp.at.date());
    return out;
  }

  const TermView& view_;
  PerChild<ContactAttempt> contacts_;
  std::vector<Followed> found_;
};

ReferralCounts countsOf(const std::vector<Followed>& all, std::optional<Urgency> urgency) {
  ReferralCounts out;
  for (const auto& one : all) {
    const auto& referral = one.referral->value;
    if (urgency && referral.urgency != *urgency) continue;
    ++out.made;
    out.reached += one.reached ? 1 : 0;
    out.openLong += one.isOpen() && one.days > longOpen ? 1 : 0;
    switch (referral.state) {
    case ReferralState::open:
      ++out.open;
      break;
    case ReferralState::treatedComplete:
    case ReferralState::seenNoneNeeded:
      ++out.complete;
      break;
    case ReferralState::treatmentStarted:
      ++out.started;
      break;
    case ReferralState::declined:
      ++out.declined;
      break;
    case ReferralState::moved:
      ++out.moved;
      break;
    case ReferralState::lostAfterAttempts:
      ++out.lost;
      break;
    }
  }
  return out;
}

Table countTable(const Tracker& tracker, base::Date today) {
  Table table{"Referral follow-up, as of " + today.words(),
              {texts("Urgency"), counts("Made"), counts("Guardian reached"),
               counts("Seen by a dentist"), shares("% of made"), counts("Complete"),
               counts("Started"), counts("Declined"), counts("Moved"), counts("Lost to follow-up"),
               counts("Open"), counts("Open over " + number(longOpen) + " days", "open_long")}};
  const auto add = [&](const std::string& label, std::optional<Urgency> urgency) {
    const auto at = countsOf(tracker.all(), urgency);
    table.rows.push_back({label, at.made, at.reached, at.seen(), shareOf(at.seen(), at.made),
                          at.complete, at.started, at.declined, at.moved, at.lost, at.open,
                          at.openLong});
  };
  add("urgent", Urgency::urgent);
  add("early", Urgency::early);
  add("Total", std::nullopt);
  table.notes = {"Referrals of this term's days. Seen: treated, treatment started, or a dentist "
                 "found no need; complete leaves out those only started. Reached: a guardian, by "
                 "phone or message; a letter alone does not count. Open over " +
                 number(longOpen) +
                 " days counts those started too: a referral closes on an "
                 "outcome only."};
  return table;
}

Table trackerTable(const Tracker& tracker, base::Date today) {
  Table table{"Referral tracker",
              {texts("Student", "child"), texts("School"), texts("Urgency"), dated("Screened on"),
               dated("Due"), texts("Referred to"), counts("Attempts"), dated("Last attempt"),
               texts("Reached"), texts("Outcome"), counts("Days open"), texts("Overdue")},
              {"Open ones first, urgent before early, the oldest first. Students by number: the "
               "close-out and the board have the names."}};
  for (const auto& one : tracker.all()) {
    const auto& referral = one.referral->value;
    const auto* child = tracker.view().children.find(referral.child);
    const auto* day = tracker.view().days.find(referral.day);
    const bool late = one.isOpen() && referral.due < today;
    table.rows.push_back(
        {child ? child->number : "unknown", day ? tracker.view().schoolName(day->school) : nothing,
         referral.urgency, one.made, referral.due, referral.to, one.attempts.size(),
         one.attempts.empty()
             ? nothing
             : one.attempts.back().first.iso() + " " + named(one.attempts.back().second->channel) +
                   ": " + named(one.attempts.back().second->result),
         one.reached, referral.state, one.days, late ? "OVERDUE" : nothing});
  }
  return table;
}

/// Sealants that a check did not find where they were written down, until a later look or a
/// correction of the tooth.
Table doubtfulTable(const TermView& view, base::Date today) {
  Table table{"Records in question",
              {texts("Student", "child"), texts("School"), texts("Tooth charted"),
               dated("Placed on"), dated("Checked on")},
              {"A check found no matching sealant on that tooth. Look for it at the next "
               "visit and correct the tooth, or leave it: it counts as not assessable."}};
  const auto& records = view.records;
  auto checks = records.checks;
  std::erase_if(checks, [&](const auto& row) {
    const auto on = view.dateOf(row.value.day);
    return !on || *on > today;
  });
  const Lookup<chairside::Placement> placements(records.placements);
  const auto dateWords = [&](const roster::DayId& day) {
    const auto on = view.dateOf(day);
    return on ? on->iso() : std::string(nothing);
  };
  for (const auto& row : stillDoubtful(checks, records.placements)) {
    const auto* child = view.children.find(row.value.child);
    const auto* placement = placements.find(row.value.placement);
    if (!child || !placement) continue;
    table.rows.push_back({child->number, view.schoolName(child->school),
                          placement->tooth.shown(records.notation), dateWords(placement->day),
                          dateWords(row.value.day)});
  }
  return table;
}

} // namespace

ReferralCounts referralCounts(const TermView& view, base::Date today,
                              std::optional<Urgency> urgency) {
  return countsOf(Tracker(view, today).all(), urgency);
}

std::vector<followup::ReferralId> trackedReferrals(const TermView& view, base::Date today) {
  const Tracker tracker(view, today);
  std::vector<followup::ReferralId> ids;
  for (const auto& one : tracker.all())
    ids.push_back(one.referral->id);
  return ids;
}

std::vector<Table> referralReport(const TermView& view, base::Date today) {
  const Tracker tracker(view, today);
  return {countTable(tracker, today), trackerTable(tracker, today),
          doubtfulTable(tracker.view(), today)};
}

} // namespace gk::reports
