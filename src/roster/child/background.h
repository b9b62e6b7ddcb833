#pragma once

#include "roster/child/child.h"

namespace gk::roster {

using BackgroundId = base::Id<struct BackgroundTag>;

/// The seven minimum categories of race and ethnicity of the United States' federal statistics, one
/// question, more than one answer: OMB, Statistical Policy Directive No. 15, 89 FR 22182 (29 March
/// 2024).
enum class Ethnicity {
  americanIndian,
  asian,
  black,
  hispanic,
  middleEastern,
  pacificIslander,
  white
};
using EthnicitySet = base::EnumSet<Ethnicity>;

/// Who pays for a child's dental care. No payer's number is kept.
enum class Payer { medicaid, chip, privateInsurance, none, unknown };

/// What a form says of a child that only funders' counts ask for.
struct Background {
  using Key = BackgroundId;
  ChildId child;
  EthnicitySet groups; ///< empty: not stated
  Payer payer = Payer::unknown;
  bool operator==(const Background&) const = default;
};

/// As the directive spells them: "Black or African American".
std::string_view shown(Ethnicity group);
/// "Medicaid", "no insurance".
std::string_view shown(Payer payer);

} // namespace gk::roster

template <>
inline constexpr auto gk::base::enumNames<gk::roster::Ethnicity> = std::to_array<std::string_view>(
    {"american indian or alaska native", "asian", "black or african american", "hispanic or latino",
     "middle eastern or north african", "native hawaiian or pacific islander", "white"});
template <>
inline constexpr auto gk::base::enumNames<gk::roster::Payer> = std::to_array<std::string_view>(
    {"medicaid", "chip", "private insurance", "no insurance", "not known"});
