#pragma once

#include "base/time/date.h"

#include <optional>
#include <string>
#include <string_view>

namespace gk::kit {

/// What a code on a package says of the lot in it.
struct PackageCode {
  std::string lot;
  std::optional<base::Date> expiry{};
  bool operator==(const PackageCode&) const = default;
};

/// Of a GS1 element string, as a scanner sends it (with or without "]d2" or "]C1", the separator
/// FNC1 as ASCII 29) or as it is printed with brackets: lot (10) and expiry (17). None for any
/// other code, and where it names no lot. Element strings after GS1 General Specifications, section
/// 3 (application identifiers 01, 10, 11, 13, 15, 16, 17, 21; read from memory).
std::optional<PackageCode> readPackageCode(std::string_view code);

/// A product's number alone (GTIN of 8, 12, 13 or 14 digits with its check digit, GS1 General
/// Specifications, section 7.9): it is the same on every lot.
bool isProductCode(std::string_view code);

} // namespace gk::kit
