#include "office/call/call.h"

#include "base/text/text.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

Error malformed(const Shape& shape, const std::string& why) {
  return {ErrorCode::callMalformed,
          why + "; groovekeeper-office " + std::string(shape.name) + " --help shows what fits"};
}

std::vector<Option> optionsOf(const Shape& shape) {
  auto options = shape.options;
  options.push_back({"--json", "", "the answer as JSON"});
  options.push_back({"--help", "", "this page"});
  return options;
}

std::vector<std::string_view> operandsOf(const Shape& shape) {
  if (shape.operands.empty()) return {};
  return base::split(shape.operands, ' ');
}

/// Letters to insert, drop or change (Levenshtein 1966).
std::size_t distance(std::string_view one, std::string_view other) {
  std::vector<std::size_t> row(other.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= one.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= other.size(); ++j) {
      const auto changed = corner + (one[i - 1] == other[j - 1] ? 0U : 1U);
      corner = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row.back();
}

std::string unknownOption(std::string_view name, const std::vector<Option>& options) {
  std::string why = "there is no option " + std::string(name);
  if (name == "--passphrase")
    return why + ", since others can read a command line; put the passphrase in a file and give "
                 "--passphrase-file FILE";
  std::vector<std::string_view> names;
  for (const auto& option : options)
    names.push_back(option.name);
  const auto near = nearest(name, names);
  return near.empty() ? why : why + "; did you mean " + near + "?";
}

} // namespace

std::string nearest(std::string_view word, std::span<const std::string_view> among) {
  std::string_view best;
  auto fewest = std::numeric_limits<std::size_t>::max();
  for (const auto candidate : among) {
    const auto letters = distance(word, candidate);
    if (letters >= fewest) continue;
    fewest = letters;
    best = candidate;
  }
  const bool isNear = fewest <= std::max<std::size_t>(2, word.size() / 3);
  return isNear ? std::string(best) : std::string();
}

Result<Call> Call::parse(const Shape& shape, std::span<const std::string> args) {
  Call call;
  if (std::ranges::find(args, "--help") != args.end()) {
    call.options_.emplace("--help", "");
    return call;
  }
  const auto options = optionsOf(shape);
  bool optionsEnded = false;
  for (std::size_t i = 0; i < args.size(); ++i) {
    const std::string& word = args[i];
    if (!base::isUtf8(word))
      return malformed(shape, "word " + std::to_string(i + 1) + " after the verb is not UTF-8");
    if (!optionsEnded && word == "--") {
      optionsEnded = true;
      continue;
    }
    if (optionsEnded || word == "-" || !word.starts_with('-')) {
      call.operands_.push_back(word);
      continue;
    }
    const auto equals = word.find('=');
    const auto name = word.substr(0, equals);
    const auto option = std::ranges::find(options, name, &Option::name);
    if (option == options.end()) return malformed(shape, unknownOption(name, options));
    const bool isFlag = option->value.empty();
    if (isFlag && equals != std::string::npos) return malformed(shape, name + " takes no value");
    std::string value;
    if (!isFlag) {
      if (equals == std::string::npos && i + 1 == args.size())
        return malformed(shape, name + " needs a value, " + std::string(option->value));
      value = equals == std::string::npos ? args[++i] : word.substr(equals + 1);
      if (!base::isUtf8(value)) return malformed(shape, "the value of " + name + " is not UTF-8");
      if (equals == std::string::npos && value.starts_with("--"))
        return malformed(shape, name + " needs a value, " + std::string(option->value));
    }
    if (!call.options_.emplace(name, value).second)
      return malformed(shape, name + " is given twice");
  }

  const auto operands = operandsOf(shape);
  if (call.operands_.size() > operands.size())
    return malformed(shape, "\"" + call.operands_[operands.size()] + "\" is one word too many");
  if (call.operands_.size() < operands.size())
    if (const auto missing = operands[call.operands_.size()]; !missing.starts_with('['))
      return malformed(shape, std::string(missing) + " is missing");
  for (const auto& option : options)
    if (option.isNeeded && !call.has(option.name))
      return malformed(shape,
                       std::string(option.name) + " " + std::string(option.value) + " is missing");
  return call;
}

bool Call::has(std::string_view option) const {
  return options_.contains(option);
}

const std::string& Call::operand(std::size_t place) const {
  base::require(place < operands_.size(), "an operand that the shape does not ask for");
  return operands_[place];
}

std::optional<std::string> Call::operandIfAny(std::size_t place) const {
  if (place >= operands_.size()) return std::nullopt;
  return operands_[place];
}

std::string Call::text(std::string_view option) const {
  return textIfAny(option).value_or("");
}

std::optional<std::string> Call::textIfAny(std::string_view option) const {
  const auto found = options_.find(option);
  if (found == options_.end()) return std::nullopt;
  return found->second;
}

Result<std::optional<base::Date>> Call::date(std::string_view option) const {
  const auto text = textIfAny(option);
  if (!text) return std::optional<base::Date>{};
  const auto date = base::Date::parse(*text);
  if (!date) return Error{date.error().code, std::string(option) + ": " + date.error().detail};
  return std::optional(*date);
}

Result<std::optional<double>> Call::number(std::string_view option) const {
  const auto text = textIfAny(option);
  if (!text) return std::optional<double>{};
  const auto number = base::parseDouble(*text);
  if (!number)
    return Error{number.error().code, std::string(option) + ": " + number.error().detail +
                                          "; write digits, with a point for decimals"};
  return std::optional(*number);
}

Result<std::optional<int>> Call::whole(std::string_view option, int least, int most) const {
  const auto text = textIfAny(option);
  if (!text) return std::optional<int>{};
  const auto number = base::parseInt(*text);
  if (!number || *number < least || *number > most)
    return Error{ErrorCode::numberMalformed,
                 std::string(option) + ": \"" + *text + "\" is not a whole number from " +
                     std::to_string(least) + " to " + std::to_string(most)};
  return std::optional(static_cast<int>(*number));
}

std::string helpOf(const Shape& shape) {
  std::string usage = "groovekeeper-office " + std::string(shape.name);
  if (!shape.operands.empty()) usage += " " + std::string(shape.operands);
  std::string lines;
  for (const auto& option : optionsOf(shape)) {
    std::string left = std::string(option.name);
    if (!option.value.empty()) left += " " + std::string(option.value);
    if (option.isNeeded) usage += " " + left;
    left.resize(std::max<std::size_t>(left.size() + 2, 30), ' ');
    lines += "  " + left + std::string(option.help) + "\n";
  }
  return usage + " [OPTIONS]\n" + std::string(shape.help) + "\n\n" + lines;
}

} // namespace gk::office
