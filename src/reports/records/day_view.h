#pragma once

#include "reports/records/day_closing.h"
#include "reports/records/lookup.h"

#include <set>

namespace gk::reports {

/// One day's records with their cross-references; for the close-out's own sources.
class DayView {
 public:
  DayView(const DayRecords& records, const Names& names);

  const DayRecords& records;

  PerChild<chairside::Seating> seatings;
  PerChild<chairside::Screening> screenings;
  PerChild<chairside::Placement> placements;
  PerChild<chairside::Varnish> varnishes;
  PerChild<chairside::DayOutcome> outcomes;
  PerChild<followup::RetentionCheck> checks;
  PerChild<followup::Referral> referrals;
  PerChild<followup::ContactAttempt> contacts;
  PerChild<followup::Letter> letters;
  PerChild<roster::ConsentOverride> overrides;
  PerChild<chairside::Field> fields;

  [[nodiscard]] std::string shown(const roster::ChildId& child) const;
  [[nodiscard]] const Names& names() const { return names_; }
  [[nodiscard]] std::string tooth(const dentition::Tooth& tooth) const;
  [[nodiscard]] std::string initials(const std::optional<base::MemberId>& member) const;
  [[nodiscard]] const roster::Child* child(const roster::ChildId& id) const;
  [[nodiscard]] const kit::Lot* lot(const kit::LotId& id) const { return lots_.find(id); }
  [[nodiscard]] const kit::Light* light(const kit::LightId& id) const { return lights_.find(id); }
  [[nodiscard]] const chairside::Field* field(const chairside::FieldId& id) const;

  /// Where the child's forms stand on the day.
  [[nodiscard]] roster::Standing standing(const roster::ChildId& child) const;
  /// The last outcome noted, or none.
  [[nodiscard]] const chairside::DayOutcome* outcome(const roster::ChildId& child) const;
  /// Whether the tooth has a complete placement of any type on the day.
  [[nodiscard]] bool isFinished(const roster::ChildId& child, const dentition::Tooth& tooth) const;
  [[nodiscard]] bool wasSeen(const roster::ChildId& child) const;
  [[nodiscard]] bool wasSeenOnOtherDays(const roster::ChildId& child) const;

  /// In the order of room and name.
  [[nodiscard]] const std::vector<roster::ChildId>& lineUp() const { return lineUp_; }
  [[nodiscard]] const std::vector<roster::ChildId>& stillToSee() const { return stillToSee_; }

 private:
  void findLineUp();
  [[nodiscard]] bool isAwaited(const roster::ChildId& child) const;

  const Names& names_;
  Lookup<roster::Child> children_;
  Lookup<kit::Lot> lots_;
  Lookup<kit::Light> lights_;
  Lookup<roster::Member> members_;
  Lookup<chairside::Field> fieldsById_;
  Forms forms_;
  std::set<roster::ChildId> otherDays_;
  std::set<std::string> namesakes_; ///< names that two of these children have
  std::vector<roster::ChildId> lineUp_;
  std::vector<roster::ChildId> stillToSee_;
};

/// The stamp of the first word on it, where it has been said again or corrected since.
template <class T>
const base::Stamp& firstWord(const DayView& view, const base::Recorded<T>& row) {
  const auto at = view.records.firstWords.find(row.stamp.entry);
  return at == view.records.firstWords.end() ? row.stamp : at->second;
}

} // namespace gk::reports
