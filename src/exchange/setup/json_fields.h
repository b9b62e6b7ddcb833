#pragma once

#include "base/enum_names.h"
#include "base/time/clock.h"
#include "base/time/date.h"
#include "exchange/setup/json_tree.h"

#include <optional>
#include <span>

namespace gk::exchange {

/// How a name is written on the way to it: "/terms/0/start".
std::string pathOf(std::string_view folder, std::string_view name);
std::string pathOf(std::string_view folder, std::size_t place);

/// `code` at that place, for a person: the pointer, the line, and why.
base::Error jsonError(base::ErrorCode code, const std::string& at, const JsonNode& node,
                      const std::string& why);

/// Reads one JSON object strictly. A name that is not there leaves the value as it is. The first
/// trouble is kept for `end`, which also refuses every name that no one asked for and each that
/// stands twice. No trouble repeats a name or a text of the file: it is said by its place.
class JsonFields {
 public:
  /// With `only`, no other name is looked at, and none is refused.
  JsonFields(const JsonNode& node, std::string at, std::string_view only = {});

  /// Without blanks around it, and nothing that makes it read otherwise than it is kept.
  void text(std::string_view name, std::string& into);
  void date(std::string_view name, base::Date& into);
  void expiry(std::string_view name, base::Date& into);              ///< or year and month
  void date(std::string_view name, std::optional<base::Date>& into); ///< null is none
  void whole(std::string_view name, int& into, int least, int most);
  void whole(std::string_view name, std::optional<int>& into, int least, int most); ///< or null
  void seconds(std::string_view name, base::Seconds& into, int least, int most);
  void flag(std::string_view name, bool& into);
  void dates(std::string_view name, std::vector<base::Date>& into); ///< in order, each once
  /// `more` stands behind each word in the book's own names.
  template <class E>
  void word(std::string_view name, E& into, std::string_view more = {}) {
    if (const auto* node = at(name, JsonNode::Kind::text))
      if (const auto place = wordIn(name, *node, base::enumNames<E>, more))
        into = static_cast<E>(*place);
  }
  template <class E>
  void words(std::string_view name, base::EnumSet<E>& into) {
    base::EnumSet<E> set;
    const auto* list = at(name, JsonNode::Kind::list);
    if (!list) return;
    for (std::size_t i = 0; i < list->items.size() && !problem_; ++i) {
      const auto path = pathOf(name, i);
      const auto place = wordIn(path, list->items[i], base::enumNames<E>, {});
      if (place && set.has(static_cast<E>(*place)))
        refuse(base::ErrorCode::documentMalformed, path, list->items[i],
               "that word is there twice");
      if (place) set.add(static_cast<E>(*place));
    }
    if (!problem_) into = set;
  }

  /// The value of that name if it is there and of that kind.
  const JsonNode* at(std::string_view name, JsonNode::Kind kind);
  [[nodiscard]] bool says(std::string_view name) const;
  [[nodiscard]] std::vector<std::string> said() const; ///< the known names that are there
  void need(std::initializer_list<std::string_view> names);
  void refuse(base::ErrorCode code, std::string_view name, const JsonNode& node,
              const std::string& why);
  [[nodiscard]] base::Result<base::Done> end() const;

 private:
  const JsonNode* find(std::string_view name);
  std::optional<std::size_t> wordIn(std::string_view path, const JsonNode& node,
                                    std::span<const std::string_view> words, std::string_view more);
  std::optional<base::Date> dateIn(std::string_view path, const JsonNode& node, bool isExpiry);

  const JsonNode& node_;
  std::string at_;
  std::string_view only_;
  std::vector<std::string_view> asked_{};
  std::optional<base::Error> problem_{};
};

} // namespace gk::exchange
