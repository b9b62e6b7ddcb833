#include "reports/funder/funder_referrals.h"

#include "reports/print/cells.h"
#include "reports/publish/published.h"
#include "reports/services/referral_report.h"

namespace gk::reports {

namespace {

using chairside::Urgency;

enum ReferralFigure : std::size_t {
  made,
  reachedGuardian,
  complete,
  started,
  declined,
  moved,
  lost,
  open,
  openLong,
  referralFigures ///< how many there are
};

std::vector<int> figuresOf(const ReferralCounts& at) {
  return {at.made,  at.reached, at.complete, at.started, at.declined,
          at.moved, at.lost,    at.open,     at.openLong};
}

/// Early and urgent and their sum, with all that a reader knows of how they add up.
class ReferralSystem {
 public:
  ReferralSystem(const TermView& view, base::Date today) {
    add(figuresOf(referralCounts(view, today, Urgency::early)), 0);
    add(figuresOf(referralCounts(view, today, Urgency::urgent)), 1);
    add(figuresOf(referralCounts(view, today, std::nullopt)), 2);
    system_.totalRow = 2;
    for (std::size_t i = 0; i < referralFigures; ++i)
      system_.sums.push_back({place(2, i), {place(0, i), place(1, i)}});
  }

  [[nodiscard]] Cells row(std::size_t row, const Suppressed& shown,
                          const SuppressionRule& rule) const {
    Cells cells;
    for (std::size_t i = 0; i < referralFigures; ++i) {
      const auto at = place(row, i);
      cells.push_back(shownCount(system_.cells.at(at).value, shown.cells.at(at), rule));
    }
    return cells;
  }
  [[nodiscard]] const CountSystem& system() const { return system_; }

 private:
  [[nodiscard]] std::size_t place(std::size_t row, std::size_t figure) const {
    return starts_.at(row) + figure;
  }

  void add(const std::vector<int>& figures, std::size_t row) {
    starts_.push_back(system_.cells.size());
    for (const auto value : figures)
      system_.add({value, CountKind::count, row});
    const auto at = [&](ReferralFigure figure) { return place(row, figure); };
    system_.sums.push_back(
        {at(made), {at(complete), at(started), at(declined), at(moved), at(lost), at(open)}});
    system_.addRest(CountKind::rest, at(made), {at(reachedGuardian)});
    // Open for long: of those open or started.
    system_.addRest(CountKind::slack, at(made), {at(openLong)});
  }

  CountSystem system_;
  std::vector<std::size_t> starts_;
};

} // namespace

Table publishedReferrals(const TermView& view, const SuppressionRule& rule, base::Date today,
                         bool findingsAreWhole) {
  Table table{"Referrals and outcomes, as of " + today.words(),
              {texts("Urgency"), counts("Made"), counts("Guardian reached"), counts("Complete"),
               counts("Started"), counts("Declined"), counts("Moved"), counts("Lost to follow-up"),
               counts("Open"), counts("Open over " + number(longOpen) + " days", "open_long")}};
  const ReferralSystem system(view, today);
  const auto shown = suppress(system.system(), rule);
  if (!findingsAreWhole || shown.leaks() > 0) {
    table.rows.emplace_back(table.columns.size(), Withheld{}).front() = "Total";
    table.notes = {
        findingsAreWhole
            ? "Omitted: it would reveal a small number."
            : "Omitted: with a total of the findings suppressed, the number of referrals "
              "would reveal it."};
    return table;
  }
  std::size_t row = 0;
  for (const auto* label : {"early", "urgent", "Total"}) {
    table.rows.push_back({label});
    const auto cells = system.row(row++, shown, rule);
    table.rows.back().insert(table.rows.back().end(), cells.begin(), cells.end());
  }
  table.notes = {"Complete: treated, or a dentist found no need. A referral closes on an outcome "
                 "only; small numbers as in the tables above."};
  return table;
}

} // namespace gk::reports
