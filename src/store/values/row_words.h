#pragma once

#include "base/enum_names.h"
#include "base/identity/entry.h"
#include "base/text/text.h"
#include "dentition/surfaces.h"
#include "kit/light.h"
#include "roster/child/child.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace gk::store {

/// Says the values of one record, each under its column's name: what RowWriter binds, as words. A
/// reference becomes what `called` says of it; sealed bytes stay sealed.
class RowWords {
 public:
  using Fields = std::vector<std::pair<std::string, std::string>>;
  using Called = std::function<std::string(const base::Uuid&)>;

  RowWords(std::string_view columns, const Called& called) : called_(called) {
    for (const auto column : base::split(columns, ',')) {
      fields_.emplace_back(base::trim(column), std::string());
      std::ranges::replace(fields_.back().first, '_', ' ');
    }
  }

  template <class T>
  RowWords& operator<<(const T& value) {
    fields_.at(next_++).second = words(value);
    return *this;
  }
  RowWords& say(std::string value) {
    fields_.at(next_++).second = std::move(value);
    return *this;
  }

  [[nodiscard]] const Fields& fields() const { return fields_; }

 private:
  template <class T>
  std::string words(const std::optional<T>& value) const {
    return value ? words(*value) : std::string();
  }
  template <class Tag>
  std::string words(const base::Id<Tag>& id) const {
    return called_(id.uuid());
  }
  template <class T>
  std::string words(const T& value) const {
    if constexpr (std::is_same_v<T, bool>) {
      return value ? "yes" : "no";
    } else if constexpr (std::is_enum_v<T>) {
      return std::string(base::nameOf(value));
    } else if constexpr (std::is_same_v<T, std::string>) {
      return value;
    } else if constexpr (std::is_same_v<T, std::vector<std::uint8_t>>) {
      return "sealed";
    } else if constexpr (std::is_same_v<T, dentition::SurfaceSet>) {
      return dentition::words(value);
    } else if constexpr (requires { value.values(); }) {
      std::vector<std::string> each;
      for (const auto one : value.values())
        each.emplace_back(base::nameOf(one));
      return base::join(each, ", ");
    } else if constexpr (std::is_same_v<T, base::Instant>) {
      return base::LocalInstant{value, std::chrono::minutes(0)}.text() + " UTC";
    } else if constexpr (requires { value.words(); }) {
      return value.words();
    } else if constexpr (requires { value.text(); }) {
      return value.text();
    } else if constexpr (std::is_same_v<T, kit::MilliwattPerSquareCm>) {
      return std::to_string(value.value) + " mW/cm2";
    } else if constexpr (std::is_same_v<T, base::Milliseconds>) {
      return base::fixed(static_cast<double>(value.count()) / 1000, 1) + " s";
    } else if constexpr (requires { value.count(); }) {
      return std::to_string(value.count()) + " s";
    } else if constexpr (std::is_floating_point_v<T>) {
      return base::fixed(value, 2);
    } else {
      return std::to_string(value);
    }
  }

  const Called& called_;
  Fields fields_;
  std::size_t next_ = 0;
};

} // namespace gk::store
