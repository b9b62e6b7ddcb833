#pragma once

#include "reports/records/term_view.h"
#include "reports/retention/retention_facts.h"

namespace gk::reports {

/// What tells two values of a factor apart: identities or small numbers.
struct FactorKey {
  base::Uuid first{};
  base::Uuid second{};
  bool operator==(const FactorKey&) const = default;
};

/// Values of every factor but the school, as words of a report.
class FactorWords {
 public:
  /// The view outlives this.
  explicit FactorWords(const TermView& view);
  explicit FactorWords(TermView&& view) = delete; // it is kept

  [[nodiscard]] FactorKey key(const chairside::Placement& placement, Factor factor) const;
  [[nodiscard]] std::string label(const chairside::Placement& placement, Factor factor) const;

 private:
  [[nodiscard]] std::string initials(const base::MemberId& member) const;
  [[nodiscard]] std::string gradeOf(const chairside::Placement& placement) const;
  /// Of the day's last screening that looked at the tooth.
  [[nodiscard]] const chairside::ToothFinding*
  findingOf(const chairside::Placement& placement) const;

  const TermView& view_;
  Lookup<kit::Light> lights_;
  Lookup<kit::Lot> lots_;
  Lookup<roster::Member> members_;
  Lookup<chairside::Field> fields_;
  PerChild<chairside::Screening> screenings_;
};

/// The factor as the heading of a column.
std::string headingOf(Factor factor);

} // namespace gk::reports

template <>
struct std::hash<gk::reports::FactorKey> {
  std::size_t operator()(const gk::reports::FactorKey& key) const noexcept {
    const std::hash<gk::base::Uuid> half;
    return half(key.first) * 31 + half(key.second);
  }
};
