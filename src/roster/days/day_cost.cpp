#include "roster/days/day_cost.h"

#include "base/text/text.h"
#include "roster/days/display_names.h"
#include "roster/team/display_names.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace gk::roster {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr double mostMoney = 1'000'000; ///< of one kind on one day
constexpr std::string_view anHour = "/h";

Error malformedCost(std::string why) {
  return {ErrorCode::numberMalformed, std::move(why)};
}

Result<Cents> parseMoney(std::string_view text) {
  auto trimmed = base::trim(text);
  if (trimmed.starts_with('$')) trimmed.remove_prefix(1);
  const auto amount = base::parseDouble(trimmed);
  if (!amount || *amount < 0 || *amount > mostMoney)
    return malformedCost("\"" + std::string(text) + "\" is not an amount; write it like 412.50");
  const double cents = *amount * 100;
  if (std::abs(cents - std::round(cents)) > 1e-6)
    return malformedCost("\"" + std::string(text) +
                         "\" has fractions of a cent; write it like 412.50");
  return static_cast<Cents>(std::llround(cents));
}

/// The hours of one role at so much an hour.
Result<Cents> atRate(std::string_view role, std::string_view rate,
                     const std::vector<RoleTime>& people) {
  const auto which = base::parseName<Role>(base::folded(role));
  if (!which) return which.error();
  const auto cents = parseMoney(rate);
  if (!cents) return cents.error();
  const auto worked = std::ranges::find(people, *which, &RoleTime::role);
  if (worked == people.end())
    return malformedCost("no hours of " + std::string(base::displayName(*which)) +
                         " are entered for this day; enter the hours first");
  return static_cast<Cents>(
      std::llround(static_cast<double>(*cents) * static_cast<double>(worked->time.count()) / 60));
}

} // namespace

Cents DayCost::of(CostKind kind) const {
  const auto at = std::ranges::find(lines, kind, &CostLine::kind);
  return at == lines.end() ? 0 : at->amount;
}

Cents DayCost::total() const {
  Cents sum = 0;
  for (const auto& line : lines)
    sum += line.amount;
  return sum;
}

Result<base::Done> checkCosts(const DayCost& cost) {
  std::vector<CostKind> seen;
  for (const auto& line : cost.lines) {
    const auto name = std::string(base::displayName(line.kind));
    if (std::ranges::find(seen, line.kind) != seen.end())
      return malformedCost("the cost of " + name + " is listed twice; add them up");
    if (line.amount <= 0) return malformedCost("the cost of " + name + " is not above 0");
    if (static_cast<double>(line.amount) > 100 * mostMoney)
      return malformedCost("the cost of " + name + " is above " +
                           centsText(static_cast<Cents>(100 * mostMoney)));
    seen.push_back(line.kind);
  }
  return base::Done{};
}

Result<std::vector<CostLine>> parseCosts(std::string_view text,
                                         const std::vector<RoleTime>& people) {
  std::vector<CostLine> lines;
  if (base::trim(text).empty()) return lines;
  const auto add = [&](CostKind kind, Cents amount) {
    const auto at = std::ranges::find(lines, kind, &CostLine::kind);
    if (at != lines.end())
      at->amount += amount;
    else if (amount > 0)
      lines.push_back({kind, amount});
  };
  for (const auto part : base::split(text, ',')) {
    const auto words = base::trim(part);
    const auto gap = words.find_last_of(' ');
    if (gap == std::string_view::npos)
      return malformedCost("\"" + std::string(words) +
                           "\": write the cost and its amount, like supplies 60");
    const auto name = base::trim(words.substr(0, gap));
    auto amount = base::trim(words.substr(gap + 1));
    if (amount.ends_with(anHour)) {
      amount.remove_suffix(anHour.size());
      const auto cost = atRate(name, amount, people);
      if (!cost) return cost.error();
      add(CostKind::staff, *cost);
      continue;
    }
    const auto kind = base::parseName<CostKind>(base::folded(name));
    if (!kind) return kind.error();
    const auto cost = parseMoney(amount);
    if (!cost) return cost.error();
    add(*kind, *cost);
  }
  std::ranges::stable_sort(lines, {}, &CostLine::kind);
  return lines;
}

std::string costsText(const std::vector<CostLine>& lines) {
  std::vector<std::string> parts;
  for (const auto& line : lines)
    parts.push_back(std::string(base::displayName(line.kind)) + " " +
                    base::fixed(static_cast<double>(line.amount) / 100, 2));
  return base::join(parts, ", ");
}

std::string centsText(Cents amount) {
  auto whole = std::to_string(amount / 100);
  for (auto at = static_cast<std::ptrdiff_t>(whole.size()) - 3; at > 0; at -= 3)
    whole.insert(static_cast<std::size_t>(at), ",");
  const auto rest = std::to_string(std::abs(amount % 100));
  return whole + "." + (rest.size() < 2 ? "0" : "") + rest;
}

} // namespace gk::roster
