#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gk::exchange {

/// A value of a JSON text from outside. Members are as they came, also where a name stands twice.
struct JsonNode {
  enum class Kind { null, boolean, whole, fraction, text, list, object };

  Kind kind = Kind::null;
  std::size_t line = 1; ///< where it begins, or ends where it is no list and no object
  bool isTrue = false;
  std::int64_t number = 0; ///< of `whole`
  std::string text{};
  std::vector<JsonNode> items{};
  std::vector<std::pair<std::string, JsonNode>> members{};
};

/// Far more than the setup of a state's program has (ours).
inline constexpr std::size_t deepestJson = 12;
inline constexpr std::size_t mostJsonValues = 200'000;

/// RFC 8259 and nothing beside it: no comments, no NaN, nothing behind the value. `20.0` is the
/// whole number 20. Fails with `jsonMalformed` and the line where it is none, is nested deeper than
/// `deepestJson` or has more values than `mostJsonValues`; nothing of the text is repeated.
base::Result<JsonNode> readJson(std::string_view text);

} // namespace gk::exchange
