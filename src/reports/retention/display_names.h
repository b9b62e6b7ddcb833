#pragma once

#include "estimates/survival/display_names.h"
#include "followup/display_names.h"
#include "reports/retention/retention_facts.h"
#include "reports/retention/retention_totals.h"

template <>
inline constexpr std::array
    gk::base::displayNames<gk::reports::Factor> = std::to_array<std::string_view>(
        {"school", "curing light", "upper or lower", "tooth", "isolation", "two or four hands",
         "operator", "sealant lot", "operator and assistant", "contamination",
         "who retracted cheek and tongue", "isolation items", "eruption at placement",
         "hypomineralized enamel", "grade now"});

template <>
inline constexpr auto gk::base::displayNames<gk::reports::ClusterUnit> =
    std::to_array<std::string_view>({"students", "schools"});
