#include "exchange/setup/json_tree.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

namespace gk::exchange {

namespace {

using Kind = JsonNode::Kind;

/// Reads bytes and knows in which line it is. The end of a line counts once something of the next
/// is read, since a number ends only there.
class CountingLines {
 public:
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  CountingLines(const char* at, std::size_t* line) : at_(at), line_(line) {}
  reference operator*() const { return *at_; }
  CountingLines& operator++() {
    if (isAtEnd_) ++*line_;
    isAtEnd_ = *at_ == '\n';
    ++at_;
    return *this;
  }
  bool operator==(const CountingLines& other) const { return at_ == other.at_; }
  bool operator!=(const CountingLines& other) const { return at_ != other.at_; }

 private:
  const char* at_;
  std::size_t* line_;
  bool isAtEnd_ = false;
};

/// Hears the parser, which itself goes into no depth, and keeps the tree.
class TreeBuilder final : public nlohmann::json_sax<nlohmann::json> {
 public:
  explicit TreeBuilder(const std::size_t& line) : line_(line) {}

  bool null() override { return add({}); }
  bool boolean(bool value) override { return add({.kind = Kind::boolean, .isTrue = value}); }
  bool number_integer(number_integer_t value) override {
    return add({.kind = Kind::whole, .number = value});
  }
  bool number_unsigned(number_unsigned_t value) override {
    if (value > static_cast<std::uint64_t>(INT64_MAX)) return add({.kind = Kind::fraction});
    return add({.kind = Kind::whole, .number = static_cast<std::int64_t>(value)});
  }
  bool number_float(number_float_t value, const string_t& /*as written*/) override {
    constexpr double exact = 9e15; // whole numbers under it are exact in a double
    if (std::trunc(value) != value || std::abs(value) > exact) return add({.kind = Kind::fraction});
    return add({.kind = Kind::whole, .number = static_cast<std::int64_t>(value)});
  }
  bool string(string_t& value) override {
    return add({.kind = Kind::text, .text = std::move(value)});
  }
  bool binary(binary_t& /*value*/) override { return refuse("is not text"); }
  bool start_object(std::size_t /*size*/) override { return begin(Kind::object); }
  bool key(string_t& name) override {
    open_.back().members.emplace_back(std::move(name), JsonNode{});
    return true;
  }
  bool end_object() override { return end(); }
  bool start_array(std::size_t /*size*/) override { return begin(Kind::list); }
  bool end_array() override { return end(); }
  bool parse_error(std::size_t /*position*/, const std::string& /*token*/,
                   const nlohmann::detail::exception& /*has the text in it*/) override {
    return refuse("is not JSON in UTF-8 there: look for a comma, a quote or a bracket too many "
                  "or too few");
  }

  base::Result<JsonNode> take() {
    if (problem_) return *problem_;
    return std::move(whole_);
  }

 private:
  bool begin(Kind kind) {
    if (open_.size() == deepestJson)
      return refuse("is nested deeper than " + std::to_string(deepestJson) + " levels");
    open_.push_back({.kind = kind, .line = line_});
    return true;
  }
  bool end() {
    auto node = std::move(open_.back());
    open_.pop_back();
    return place(std::move(node));
  }
  bool add(JsonNode node) {
    node.line = line_;
    return place(std::move(node));
  }
  bool place(JsonNode node) {
    if (++values_ > mostJsonValues)
      return refuse("has more than " + std::to_string(mostJsonValues) + " values");
    if (open_.empty())
      whole_ = std::move(node);
    else if (open_.back().kind == Kind::object)
      open_.back().members.back().second = std::move(node);
    else
      open_.back().items.push_back(std::move(node));
    return true;
  }
  bool refuse(const std::string& why) {
    if (!problem_)
      problem_ = base::Error{base::ErrorCode::jsonMalformed,
                             "line " + std::to_string(line_) + ": the file " + why};
    return false;
  }

  const std::size_t& line_;
  std::vector<JsonNode> open_{};
  JsonNode whole_{};
  std::size_t values_ = 0;
  std::optional<base::Error> problem_{};
};

} // namespace

base::Result<JsonNode> readJson(std::string_view text) {
  std::size_t line = 1;
  TreeBuilder builder(line);
  nlohmann::json::sax_parse(CountingLines(text.data(), &line),
                            CountingLines(text.data() + text.size(), &line), &builder);
  return builder.take();
}

} // namespace gk::exchange
