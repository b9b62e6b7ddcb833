#include "reports/funder/funder_referrals.h"

#include "reports/print/cells.h"
#include "reports/publish/figure_relations.h"
#include "reports/publish/publication.h"
#include "reports/records/term_view.h"
#include "reports/services/referral_report.h"

namespace gk::reports {

namespace {

using chairside::Urgency;

Table omitted(Table table, const char* why) {
  table.rows.emplace_back(table.columns.size(), Withheld{}).front() = "Total";
  table.notes = {why};
  return table;
}

/// The children found in need, as the findings show them.
std::map<Figure, int> foundIn(const Published& published) {
  std::map<Figure, int> found;
  for (const auto& relation : callRelations())
    if (const auto at = published.release.term.back().cells.find(relation.found);
        at != published.release.term.back().cells.end())
      found[relation.found] = at->second.value;
  return found;
}

} // namespace

void addReferrals(Published& published, const TermView& view, const SuppressionRule& rule,
                  base::Date today, std::span<const Release> earlier) {
  using enum ReferralFigure;
  const std::vector<Made<ShownRow<ReferralFigure>>> columns{
      {texts("Urgency"), &ShownRow<ReferralFigure>::name},
      shownCounts("Made", "made", made),
      shownCounts("Guardian reached", "guardian_reached", guardianReached),
      shownCounts("Complete", "complete", complete),
      shownCounts("Started", "started", started),
      shownCounts("Declined", "declined", declined),
      shownCounts("Moved", "moved", moved),
      shownCounts("Lost to follow-up", "lost_to_follow_up", lost),
      shownCounts("Open", "open", open),
      shownCounts("Open over " + number(longOpen) + " days", "open_long", openLong)};
  auto table = tableOf("Referrals and outcomes, as of " + today.words(), columns);
  if (hidesIn(published.tables[2].rows.back())) {
    published.referrals =
        omitted(std::move(table), "Omitted: with a total of the findings suppressed, the number of "
                                  "referrals would reveal it.");
    return;
  }
  const auto calls = publication(referralSystem({referralCounts(view, today, Urgency::early),
                                                 referralCounts(view, today, Urgency::urgent),
                                                 referralCounts(view, today, std::nullopt)},
                                                foundIn(published), earlier),
                                 rule, earlier, &Release::referrals);
  if (calls.isLeaky()) {
    published.referrals = omitted(std::move(table), "Omitted: it would reveal a small number.");
    return;
  }
  for (std::size_t i = 0; i < calls.counts.grid.size(); ++i)
    addRow(table, columns, ShownRow<ReferralFigure>(calls.counts, calls.shown, i, rule));
  table.notes = {"Complete: treated, or a dentist found no need. A referral closes on an outcome "
                 "only; small numbers as in the tables above."};
  published.referrals = std::move(table);
  published.release.referrals = calls.released();
}

} // namespace gk::reports
