#include "reports/services/payer_report.h"

#include "reports/print/cells.h"
#include "reports/records/term_view.h"

#include <set>
#include <tuple>

namespace gk::reports {

namespace {

using roster::Payer;

enum class Service { screening, sealants, repairs, interim, varnish, checks };

Cell payerCell(Payer payer) {
  return Word{std::string(base::nameOf(payer)), std::string(shown(payer))};
}

constexpr std::string_view wordsOf(Service service) {
  switch (service) {
  case Service::screening:
    return "screening";
  case Service::sealants:
    return "sealants";
  case Service::repairs:
    return "sealant repairs";
  case Service::interim:
    return "glass ionomer sealants";
  case Service::varnish:
    return "fluoride varnish";
  case Service::checks:
    return "sealant checks";
  }
  base::fail("no such service");
}

Service serviceOf(chairside::PlacementType type) {
  switch (type) {
  case chairside::PlacementType::repair:
    return Service::repairs;
  case chairside::PlacementType::interim:
    return Service::interim;
  case chairside::PlacementType::fresh:
  case chairside::PlacementType::reseal:
  case chairside::PlacementType::replacesInterim:
    return Service::sealants;
  }
  base::fail("no such placement");
}

/// In the order in which they are printed.
/// School and provider are shown by their words and told apart by who they are.
template <class Id>
using Shown = std::pair<std::string, Id>;
using PayerLine = std::tuple<base::Date, Shown<roster::SchoolId>,
                             Shown<std::optional<base::MemberId>>, Service, Payer>;

struct Sum {
  std::set<roster::ChildId> children;
  std::set<std::pair<roster::ChildId, dentition::Tooth>> teeth;
};

class PayerCounts {
 public:
  explicit PayerCounts(const TermView& view)
      : view_(view), members_(view.records.members),
        backgrounds_(
            newestOfEach(view.records.backgrounds, [](const auto& one) { return one.child; })) {
    for (const auto& [child, rows] : view_.screenings.all())
      for (const auto* row : rows)
        of(*row, Service::screening, row->stamp.by.author);
    for (const auto& [child, rows] : view_.placements.all())
      for (const auto* row : rows)
        if (row->value.attempt == chairside::Attempt::complete)
          if (auto* sum = of(*row, serviceOf(row->value.type), row->value.placedBy))
            sum->teeth.insert({child, row->value.tooth});
    for (const auto& [child, rows] : view_.varnishes.all())
      for (const auto* row : rows)
        of(*row, Service::varnish, row->stamp.by.author);
    const Lookup<chairside::Placement> placements(view.records.placements);
    for (const auto& [child, rows] : view_.checks.all())
      for (const auto* row : rows)
        if (auto* sum = of(*row, Service::checks, row->stamp.by.author))
          if (const auto* placed = placements.find(row->value.placement))
            sum->teeth.insert({child, placed->tooth});
  }

  std::map<PayerLine, Sum> sums;

 private:
  template <class T>
  Sum* of(const base::Recorded<T>& row, Service service,
          const std::optional<base::MemberId>& provider) {
    const auto* day = view_.days.find(row.value.day);
    if (!day) return nullptr;
    const auto* member = provider ? members_.find(*provider) : nullptr;
    const auto known = backgrounds_.find(row.value.child);
    auto& sum = sums[{day->date,
                      {view_.schoolName(day->school), day->school},
                      {member ? member->initials : nothing, provider},
                      service,
                      known == backgrounds_.end() ? Payer::unknown : known->second->value.payer}];
    sum.children.insert(row.value.child);
    return &sum;
  }

  const TermView& view_;
  Lookup<roster::Member> members_;
  std::map<roster::ChildId, const base::Recorded<roster::Background>*> backgrounds_;
};

} // namespace

std::vector<Table> payerReport(const TermView& view) {
  const PayerCounts found(view);
  Table totals{
      "Payers, the term",
      {grouped("Service"), texts("Payer"), counts("Students", "children"), counts("Teeth")},
      {"Counts alone: no student, no fee and no claim. The office that bills decides what is "
       "billed. Students once each, by payer as the form said.",
       "For use inside the program: small counts are not suppressed here."}};
  Table lines{"Payers by day and provider",
              {grouped("Date", Kind::date), grouped("School"), texts("Provider"), texts("Service"),
               texts("Payer"), counts("Students", "children"), counts("Teeth")},
              {"Provider: who screened, placed, varnished or checked.",
               "For use inside the program: most counts here are small and not suppressed."}};
  std::map<std::pair<Service, Payer>, Sum> byService;
  const auto teeth = [](const Sum& sum) {
    return sum.teeth.empty() ? Cell(noFigure) : Cell(sum.teeth.size());
  };
  for (const auto& [line, sum] : found.sums) {
    const auto& [date, school, provider, service, payer] = line;
    auto& all = byService[{service, payer}];
    all.children.insert(sum.children.begin(), sum.children.end());
    all.teeth.insert(sum.teeth.begin(), sum.teeth.end());
    lines.rows.push_back({date, school.first, provider.first, std::string(wordsOf(service)),
                          payerCell(payer), sum.children.size(), teeth(sum)});
  }
  for (const auto& [key, sum] : byService)
    totals.rows.push_back(
        {std::string(wordsOf(key.first)), payerCell(key.second), sum.children.size(), teeth(sum)});
  return {totals, lines};
}

} // namespace gk::reports
