#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "base/identity/id.h"
#include "base/time/clock.h"

#include <compare>
#include <optional>
#include <span>
#include <string>

namespace gk::kit {

using LightId = base::Id<struct LightTag>;
using ReadingId = base::Id<struct ReadingTag>;
using LightPassId = base::Id<struct LightPassTag>;

/// Irradiance; whole numbers 0-5000 as hand-held meters show it.
struct MilliwattPerSquareCm {
  int value = 0;
  auto operator<=>(const MilliwattPerSquareCm&) const = default;
};

enum class LightType { led, halogen, other };

struct Light {
  using Key = LightId;
  std::string tag; ///< "L-1"
  LightType type = LightType::led;
  MilliwattPerSquareCm makersLeast; ///< 0 when the maker names none
  MilliwattPerSquareCm baseline;
  bool baselineWithSleeve = true;
  std::string meter; ///< the meter of the baseline; a light is compared on that meter only
  bool inService = true;
  bool operator==(const Light&) const = default;
};

struct MeterReading {
  using Key = ReadingId;
  LightId light;
  base::Date on;
  MilliwattPerSquareCm value;
  bool withSleeve = true;
  std::string meter;
  bool tipCleaned = true;
  bool operator==(const MeterReading&) const = default;
};

/// A light that was to be read at the end of the day and was not.
struct LightPass {
  using Key = LightPassId;
  base::DayId day;
  LightId light;
  std::string reason;
  bool operator==(const LightPass&) const = default;
};

enum class LightGrade { green, amber, red, notComparable };

/// Against the light's own baseline on the same meter, sleeve alike: amber from 10 % below, red
/// from 20 % below or under the maker's least output (thresholds from memory, not published; the
/// program may be stricter). Otherwise not comparable.
LightGrade grade(const Light& light, const MeterReading& reading);

/// Of that day the newest reading of the light that can be judged; none when there is none. A
/// number typed wrong is read again, and a later one on another meter says nothing about it.
const base::Recorded<MeterReading>*
newestOn(const Light& light, std::span<const base::Recorded<MeterReading>> readings, base::Date on);
/// Its grade; not comparable when there is none.
LightGrade gradeOn(const Light& light, std::span<const base::Recorded<MeterReading>> readings,
                   base::Date on);

/// What to ask about a number that the meter can hardly have shown, such as 104 for 1040: less than
/// half, or more than one and a half times, of the baseline and of each of the light's last three
/// readings. Empty when nothing is odd. Only ever a question: a light may fail from one day to the
/// next.
std::string readingQuestion(const Light& light,
                            std::span<const base::Recorded<MeterReading>> earlier,
                            const MeterReading& reading);

} // namespace gk::kit

template <>
inline constexpr auto gk::base::enumNames<gk::kit::LightType> =
    std::to_array<std::string_view>({"LED", "halogen", "other"});
template <>
inline constexpr auto gk::base::enumNames<gk::kit::LightGrade> =
    std::to_array<std::string_view>({"green", "amber", "red", "not comparable"});
