#pragma once

#include "base/result.h"
#include "base/time/date.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// One long option. An empty `value` is a flag; otherwise it names what stands after it.
struct Option {
  std::string_view name; ///< "--day"
  std::string_view value;
  std::string_view help;
  bool isNeeded = false;
};

/// What a verb takes. Every verb also takes --json and --help.
struct Shape {
  std::string_view name;     ///< "close-out", "estimate averted"
  std::string_view operands; ///< "FILE CSV"; optional ones in brackets, last
  std::string_view help;     ///< one sentence
  std::vector<Option> options;
};

/// The words of one call, checked against the shape of its verb.
class Call {
 public:
  /// Strict: "--name value" or "--name=value", each once; "--" ends the options and "-" is an
  /// operand. Anything else is `callMalformed`, with the nearest option. --help anywhere is
  /// enough: then nothing else is looked at.
  static base::Result<Call> parse(const Shape& shape, std::span<const std::string> args);

  [[nodiscard]] bool has(std::string_view option) const;
  [[nodiscard]] bool wantsHelp() const { return has("--help"); }
  [[nodiscard]] bool wantsJson() const { return has("--json"); }

  /// Precondition: the shape needs it.
  [[nodiscard]] const std::string& operand(std::size_t place) const;
  [[nodiscard]] std::optional<std::string> operandIfAny(std::size_t place) const;

  /// Empty when the option was not given.
  [[nodiscard]] std::string text(std::string_view option) const;
  [[nodiscard]] std::optional<std::string> textIfAny(std::string_view option) const;
  /// Fail with `dateMalformed` and `numberMalformed`, naming the option; none when not given.
  [[nodiscard]] base::Result<std::optional<base::Date>> date(std::string_view option) const;
  [[nodiscard]] base::Result<std::optional<double>> number(std::string_view option) const;
  /// A whole number from `least` to `most`.
  [[nodiscard]] base::Result<std::optional<int>> whole(std::string_view option, int least,
                                                       int most) const;

 private:
  std::vector<std::string> operands_;
  std::map<std::string, std::string, std::less<>> options_;
};

/// Shown by --help of a verb.
std::string helpOf(const Shape& shape);

/// The word that is the fewest letters away from `word`; empty when none is near.
std::string nearest(std::string_view word, std::span<const std::string_view> among);

} // namespace gk::office
