#pragma once

#include "chairside/after_cure.h"
#include "chairside/authorization.h"
#include "chairside/field.h"
#include "chairside/placement.h"
#include "chairside/protocol.h"
#include "chairside/screening.h"
#include "chairside/seating.h"
#include "kit/display_names.h"
#include "roster/display_names.h"

/// What a person reads for each value, in the order of the enumeration. The stored names stand
/// beside the enumerations and are never shown.

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Bite> =
    std::to_array<std::string_view>({"fine", "adjusted with handpiece", "not checked"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::AuthorizedHow> =
    std::to_array<std::string_view>({"exam at school", "record review", "phone call"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::DryGuard> =
    std::to_array<std::string_view>({"tongue retracted", "cheek retracted", "no glove contact",
                                     "cotton on both sides"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Isolation> =
    std::to_array<std::string_view>({"cotton rolls", "cotton rolls with holders", "cheek pads",
                                     "cotton rolls and cheek pads", "rubber dam", "dry field kit",
                                     "suction bite block", "single tooth", "retractor", "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Holder> =
    std::to_array<std::string_view>({"device", "operator", "assistant", "no one"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Cleaning> =
    std::to_array<std::string_view>({"not recorded", "dry toothbrush", "handpiece brush", "gauze",
                                     "other", "not cleaned"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Step> =
    std::to_array<std::string_view>({"etch", "rinse", "dry", "place sealant", "cure", "check"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::StepResult> =
    std::to_array<std::string_view>({"done", "interrupted", "short time accepted", "frosty",
                                     "not frosty", "frosty not checked", "passed",
                                     "added, then passed", "redone, then passed", "not achieved"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::WetStage> =
    std::to_array<std::string_view>({"before etch", "after etch", "after frosty check",
                                     "while placing sealant", "before cure ends", "at check"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::WetCause> =
    std::to_array<std::string_view>({"saliva", "blood", "tongue", "cough or gag",
                                     "cotton roll slipped", "moisture in air line", "child moved",
                                     "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::PlacementType> =
    std::to_array<std::string_view>({"new", "repair", "reseal", "glass ionomer sealant",
                                     "replaces glass ionomer"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Attempt> =
    std::to_array<std::string_view>({"complete", "stopped before sealant", "stopped before cure",
                                     "not achieved"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::DayEnd> =
    std::to_array<std::string_view>({"sealed, complete", "sealed, unfinished",
                                     "screened, no sealants needed", "screened, not treated",
                                     "recheck only", "absent", "declined", "left school",
                                     "consent withdrawn", "on hold", "not seen, out of time"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Next> =
    std::to_array<std::string_view>({"etch", "rinse", "dry", "place sealant", "cure", "check",
                                     "placed", "not achieved", "stopped"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Tri> =
    std::to_array<std::string_view>({"no", "yes", "cannot tell"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Urgency> =
    std::to_array<std::string_view>({"no obvious problem", "early care", "urgent care"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::UrgentReason> =
    std::to_array<std::string_view>({"none", "pain", "swelling", "fistula or abscess", "trauma",
                                     "soft tissue", "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Presence> =
    std::to_array<std::string_view>({"unerupted", "partially erupted", "erupted", "missing",
                                     "congenitally missing", "exfoliated", "primary tooth retained",
                                     "cannot be seen"});

template <>
inline constexpr std::array
    gk::base::displayNames<gk::chairside::Condition> = std::to_array<std::string_view>(
        {"not examined", "sound", "non-cavitated lesion", "cavitated", "filled",
         "sealant fully retained", "sealant partially retained", "crowned", "banded", "fractured"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Origin> =
    std::to_array<std::string_view>({"not sealed", "our sealant", "sealed elsewhere",
                                     "sealed, origin unknown"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Enamel> =
    std::to_array<std::string_view>({"none", "mild fluorosis", "pitted fluorosis", "opacity (MIH)",
                                     "MIH with breakdown", "hypoplasia"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::SoftTissue> =
    std::to_array<std::string_view>({"none", "operculum", "gingiva over pit/groove"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Decision> =
    std::to_array<std::string_view>({"none", "seal", "glass ionomer sealant", "repair", "reseal",
                                     "watch", "refer", "not allowed by the form", "cannot isolate",
                                     "child declined", "not today"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::ResealWhy> =
    std::to_array<std::string_view>({"not recorded", "missing", "lifted", "partly missing",
                                     "leaking margin", "glass ionomer replaced", "other"});

template <>
inline constexpr auto gk::base::displayNames<gk::chairside::Identifier> =
    std::to_array<std::string_view>({"spoken name", "birth date", "teacher or room", "slip scan",
                                     "name tag"});
