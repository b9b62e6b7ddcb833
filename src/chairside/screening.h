#pragma once

#include "base/identity/entry.h"
#include "chairside/seating.h"
#include "dentition/surfaces.h"
#include "roster/consent/consent.h"
#include "roster/days/clinic_day.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gk::chairside {

using ScreeningId = base::Id<struct ScreeningTag>;

/// Fails with `ruleIdentity` unless two agree and one is the name that the child spoke.
base::Result<base::Done> checkIdentifiers(IdentifierSet confirmed);
/// Fails with `ruleReason` where something changed and nothing says what, or the other way about.
base::Result<base::Done> checkHistory(const Seating& seating);

enum class Tri { no, yes, cannotTell };
/// Urgency of need for care as the Basic Screening Survey (ASTDD) has it.
enum class Urgency { none, early, urgent };
enum class UrgentReason { none, pain, swelling, fistulaOrAbscess, trauma, softTissue, other };

enum class Presence {
  unerupted,
  partlyErupted,
  erupted,
  extracted,
  neverFormed,
  shed, ///< primary teeth only
  primaryStillPresent,
  cannotSee
};
enum class Condition {
  notLookedAt,
  sound,
  earlyLesion, ///< non-cavitated: a reason to seal, not to refuse
  cavitated,
  restored,
  sealedWhole,
  sealedPart,
  crowned,
  banded,
  fractured
};
enum class Origin { notSealed, ours, other, unknown };
enum class Enamel { none, fluorosisMild, fluorosisPitted, opacity, opacityBroken, hypoplasia };
enum class SoftTissue { none, operculum, gumOverCompanion };
enum class Decision {
  none,
  seal,
  interim,
  repair,
  reseal,
  watch,
  refer,
  notAllowedByConsent,
  cannotIsolate,
  childDeclined,
  notToday
};

/// Why a sealant that is there, or was, is placed once more.
enum class ResealWhy { notSaid, lost, lifted, partGone, leaks, interimReplaced, other };

/// One surface: what it looks like and who sealed it. Origin is per surface, since two programs
/// may each have sealed one.
struct SurfaceFinding {
  Condition condition = Condition::notLookedAt;
  Origin origin = Origin::notSealed;
  bool operator==(const SurfaceFinding&) const = default;
};

struct ToothFinding {
  dentition::Tooth tooth;
  Presence presence;
  SurfaceFinding occlusal{};
  SurfaceFinding buccal{};
  SurfaceFinding lingual{};
  Enamel enamel = Enamel::none;
  SoftTissue softTissue = SoftTissue::none;
  Decision decision = Decision::none;
  dentition::SurfaceSet toSeal{}; ///< the surfaces of the decision; may be fewer than the tooth has
  bool revisit = false;           ///< look again: wait, interim or resin to the edge
  std::string note{};
  ResealWhy resealWhy = ResealWhy::notSaid; ///< of the decision to reseal, and of no other
  bool operator==(const ToothFinding&) const = default;

  [[nodiscard]] bool hasAny(Condition condition) const;
  [[nodiscard]] const SurfaceFinding& at(dentition::Surface surface) const;
};

struct Screening {
  using Key = ScreeningId;
  roster::ChildId child;
  roster::DayId day;
  Tri untreatedDecay;
  Tri treatedDecay;
  Urgency urgency;
  UrgentReason urgentReason = UrgentReason::none;
  std::string note;
  std::vector<ToothFinding> teeth;
  bool operator==(const Screening&) const = default;
};

/// Whether a tooth of these is charted with a cavity, which answers "untreated decay" by itself.
bool showsUntreatedDecay(std::span<const ToothFinding> teeth);

/// Fails with `ruleTooth`: a primary state on a permanent tooth or the other way about; a finding
/// on a surface that no one can have looked at (not up, not seen, under gum); a sealed
/// surface without an origin (`unknown` is one); a treatment of a tooth that is not up or missing,
/// has a cavity or a crown, or of no surface; of a primary tooth, premolar or front tooth where the
/// program offers only permanent molars; and by surface:
///   seal, interim: sound or early lesion, no gum over it
///   repair:        as well one sealed in part, or a restored one (policy); at least one such
///   reseal:        as well one sealed in part; one sealed whole by us with a note saying why
/// Why a reseal is needed is said of a reseal alone; `other` takes a note.
/// An interim cover, and any choice under an operculum but to leave it, must have `revisit` set.
base::Result<base::Done> checkFinding(const ToothFinding& finding, const roster::Program& program);

/// As checkFinding for each tooth, and: no tooth twice, a cavity means untreated decay, a filling
/// or crown on a permanent tooth means treated decay, untreated decay means at least `early`
/// (fails with `ruleTooth`), urgent needs a reason.
base::Result<base::Done> checkScreening(const Screening& screening, const roster::Program& program);

/// Whether any tooth is to be sealed, repaired, resealed or covered for now.
bool needsSealant(const Screening& screening);
bool isTreatment(Decision decision);

/// What the program's rules propose for a tooth as found; a person decides. A cavity, fracture or
/// enamel that broke down is referred; under an operculum waiting is proposed; primary teeth and
/// premolars are proposed only where the program offers them.
Decision proposedDecision(const ToothFinding& finding, const roster::Program& program = {});
/// The surfaces that can be sealed now: sound or early lesions, up and clear of gum. An operculum
/// leaves the occlusal surface sealable up to its edge.
dentition::SurfaceSet sealableSurfaces(const ToothFinding& finding);
/// Whether to look again sooner: what checkFinding demands, a tooth partly up that is treated or
/// watched, and a treated tooth whose enamel holds sealants less well (opacity, hypoplasia).
bool suggestsRevisit(const ToothFinding& finding);

} // namespace gk::chairside

template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Tri> =
    std::to_array<std::string_view>({"no", "yes", "cannot tell"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Urgency> =
    std::to_array<std::string_view>({"none", "early", "urgent"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::UrgentReason> =
    std::to_array<std::string_view>({"none", "pain", "swelling", "fistula or abscess", "trauma",
                                     "soft tissue", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Presence> =
    std::to_array<std::string_view>({"unerupted", "partly erupted", "erupted", "extracted",
                                     "never formed", "shed", "primary still present",
                                     "cannot see"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Condition> =
    std::to_array<std::string_view>({"not looked at", "sound", "early lesion", "cavitated",
                                     "restored", "sealed whole", "sealed part", "crowned", "banded",
                                     "fractured"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Origin> =
    std::to_array<std::string_view>({"not sealed", "ours", "other", "unknown"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Enamel> = std::to_array<std::string_view>(
    {"none", "fluorosis mild", "fluorosis pitted", "opacity", "opacity broken", "hypoplasia"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::SoftTissue> =
    std::to_array<std::string_view>({"none", "operculum", "gum over companion"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::Decision> =
    std::to_array<std::string_view>({"none", "seal", "interim", "repair", "reseal", "watch",
                                     "refer", "not allowed by consent", "cannot isolate",
                                     "child declined", "not today"});
template <>
inline constexpr auto gk::base::enumNames<gk::chairside::ResealWhy> =
    std::to_array<std::string_view>({"not said", "lost", "lifted", "part gone", "leaks at the edge",
                                     "interim cover replaced", "other"});
