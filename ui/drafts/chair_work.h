#pragma once

#include "chairside/placement.h"
#include "chairside/protocol.h"
#include "chairside/screening.h"
#include "ui/drafts/work_order.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What comes next at the chair, as plain functions over what the book says.
namespace gk::ui {

/// Right before left, then upper before lower; by arches the other way round. Front to back.
bool isWorkedBefore(const dentition::Tooth& one, const dentition::Tooth& other, WorkOrder order);

/// Teeth that are kept dry and sealed together next.
struct WorkGroup {
  std::string title; ///< "Right half", "Upper right quadrant", or the tooth in words
  std::vector<dentition::ToothSurfaces> teeth;
  bool interim = false; ///< wants a glass ionomer
};

/// The teeth that were chosen for treatment and have neither a field nor a placement today: right
/// before left (by arches upper before lower), and in one group only what takes the same material
/// and the same kind of work.
std::optional<WorkGroup> nextGroup(const chairside::Screening& screening,
                                   std::span<const dentition::Tooth> begun, WorkOrder order);

/// The chosen teeth of which nothing was begun.
std::vector<dentition::Tooth> notBegun(const chairside::Screening& screening,
                                       std::span<const dentition::Tooth> begun);

/// The step to do now: flowed sealant is cured before a neighbor is etched again, since it must
/// not lie uncured; else what the most backward tooth needs.
chairside::Next stepNow(const chairside::Protocol& protocol);

/// The surfaces of the next cure exposure: of the tooth under the cursor if it is due, else of the
/// first. One surface at a time unless `together`; a material without a lamp sets everywhere at
/// once.
std::vector<dentition::ToothSurfaces> nextExposure(const chairside::Protocol& protocol,
                                                   const dentition::Tooth& cursor, bool together,
                                                   bool withLamp);

/// The tooth that a check or a wet key means: the one under the cursor when it is in `due`, else
/// the first. Precondition: `due` is not empty.
dentition::ToothSurfaces meant(const std::vector<dentition::ToothSurfaces>& due,
                               const dentition::Tooth& cursor);

/// Teeth of the field that something can still be done to.
std::vector<dentition::Tooth> unfinished(const chairside::Protocol& protocol);
/// Those of them that have sealant on that is not cured through.
std::vector<dentition::Tooth> uncured(const chairside::Protocol& protocol);

/// How the day ended, as the record reads; a person confirms or changes it. The reason names the
/// teeth that were left, with why.
chairside::DayOutcome proposedOutcome(roster::ChildId child, roster::DayId day,
                                      const std::optional<chairside::Screening>& screening,
                                      std::span<const chairside::Placement> placements,
                                      bool rechecked);

/// Teeth sealed today, one line each, to be compared with the mouth.
std::vector<std::string> readBack(std::span<const chairside::Placement> placements,
                                  dentition::Notation notation);

} // namespace gk::ui
