#include "reports/print/cell.h"

#include "base/text/text.h"

#include <cmath>
#include <ostream>

namespace gk::reports {

namespace {

struct AsText {
  std::string operator()(const std::string& text) const { return text; }
  std::string operator()(Missing /*none*/) const { return nothing; }
  std::string operator()(Unknown /*none*/) const { return "unknown"; }
  std::string operator()(Withheld hidden) const {
    return hidden.under ? "fewer than " + std::to_string(*hidden.under) : "suppressed";
  }
  std::string operator()(Count count) const { return std::to_string(count.value); }
  std::string operator()(OutOf of) const {
    return std::to_string(of.part) + " of " + std::to_string(of.whole);
  }
  std::string operator()(Share share) const {
    return base::percent(share.value, share.decimals) + (share.isUnstable ? " (unstable)" : "");
  }
  std::string operator()(Number number) const {
    return std::isinf(number.value) ? "no bound" : base::fixed(number.value, number.decimals);
  }
  std::string operator()(const Range& range) const {
    const auto end = [&](double value) {
      return range.decimals ? (*this)(Number{value, *range.decimals}) : (*this)(Share{value});
    };
    return end(range.low).append(range.between) + end(range.high) + range.remark;
  }
  std::string operator()(const Estimate& estimate) const {
    return std::visit(*this, estimate.value) +
           (estimate.range ? " (" + (*this)(*estimate.range) + ")" : "");
  }
  std::string operator()(YesNo answer) const { return answer.isYes ? "yes" : "NO"; }
  std::string operator()(const Word& word) const { return word.shown; }
  std::string operator()(const Named& named) const { return named.shown; }
  std::string operator()(base::Date date) const { return date.iso(); }
};

/// By the one rule that rounds what is printed; in hundredths where the print is in percent. The
/// text is read with its power of ten: 82.4 / 100 is not the number nearest to 0.824, and a file
/// would say 0.8240000000000001.
double rounded(double value, int decimals, const char* power = "") {
  if (!std::isfinite(value)) return value;
  return *base::parseDouble(base::fixed(value, decimals) + power);
}

} // namespace

double Share::printed() const {
  return rounded(100 * value, decimals, "e-2");
}

double Number::printed() const {
  return rounded(value, decimals);
}

Cell::Cell(std::string text) : value_(Missing{}) {
  if (text != nothing) value_ = std::move(text);
}

Cell Cell::with(std::string remark) const {
  auto out = *this;
  out.remark_ = remark_ + std::move(remark);
  return out;
}

bool Cell::isEmpty() const {
  const auto* words = as<std::string>();
  return words && words->empty() && remark_.empty();
}

std::string Cell::text() const {
  return std::visit(AsText{}, value_) + remark_;
}

std::string toRead(const Cell& cell) {
  auto words = cell.text();
  const bool isNumber = cell.as<Number>() != nullptr;
  if (!cell.as<Count>() && !isNumber) return words;
  const std::ptrdiff_t first = words.starts_with('-') ? 1 : 0;
  // The digits before a point or a remark; "no bound" has none.
  const auto whole = static_cast<std::ptrdiff_t>(std::min(
      words.find_first_not_of("0123456789", static_cast<std::size_t>(first)), words.size()));
  for (auto at = whole - 3; at > first; at -= 3)
    words.insert(static_cast<std::size_t>(at), ",");
  return words;
}

std::ostream& operator<<(std::ostream& out, const Cell& cell) {
  return out << cell.text();
}

Cell shareOf(int part, int whole) {
  if (whole <= 0 || part > whole) return Missing{};
  return Share{static_cast<double>(part) / whole, 1, whole < fewest};
}

Cell shareOf(const std::optional<double>& share) {
  return share ? Cell(Share{*share}) : Cell(Missing{});
}

Cell numberOf(const std::optional<double>& value, int decimals) {
  return value ? Cell(Number{*value, decimals}) : Cell(Missing{});
}

Cell hoursOf(std::chrono::minutes time) {
  const bool isWhole = time.count() % 60 == 0;
  const bool isTenth = time.count() % 6 == 0;
  return Number{static_cast<double>(time.count()) / 60, isWhole ? 0 : isTenth ? 1 : 2};
}

Cell numberPer(double count, double whole, int decimals) {
  return whole > 0 ? Cell(Number{count / whole, decimals}) : Cell(Missing{});
}

Cell pValueOf(const std::optional<double>& p) {
  if (p && *p < 0.001) return "under 0.001";
  return numberOf(p, 3);
}

Cell rangeOf(const std::optional<estimates::Interval>& shares) {
  return shares ? Cell(Range{shares->low, shares->high}) : Cell(Missing{});
}

} // namespace gk::reports
