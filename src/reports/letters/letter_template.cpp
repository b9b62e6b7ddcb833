#include "reports/letters/letter_template.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/letters/letter_names.h"

#include <algorithm>

namespace gk::reports {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Result;

/// Reads one file from top to bottom.
class LetterTemplate::Parser {
 public:
  Parser(const std::string& file, std::string_view text) : file_(file), text_(text) {
    made_.source_ = text;
  }

  Result<LetterTemplate> parse() {
    if (text_.size() > mostBytes)
      return at(1, 1, "far longer than any letter; is it the right file?");
    if (!base::isUtf8(text_)) return at(1, 1, "the file is not UTF-8 text");
    if (const auto control = base::controlIn(text_))
      return at(1 + static_cast<int>(std::ranges::count(text_.substr(0, *control), '\n')), 1,
                "a control character; take it out of that line");
    if (const auto read = header(); !read) return read.error();
    if (const auto read = body(); !read) return read.error();
    if (const auto whole = checkNeeded(); !whole) return whole.error();
    return std::move(made_);
  }

 private:
  [[nodiscard]] Error at(int line, int column, const std::string& why) const {
    return {ErrorCode::letterTemplate,
            file_ + ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + why};
  }

  static constexpr std::size_t mostBytes = std::size_t{256} * 1024;
  static constexpr std::size_t deepest = 20;

  [[nodiscard]] bool isAtEnd() const { return at_ >= text_.size(); }

  std::string_view takeLine() {
    const auto end = std::min(text_.find('\n', at_), text_.size());
    auto line = text_.substr(at_, end - at_);
    at_ = end + 1;
    ++line_;
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
  }

  Result<Done> header() {
    std::set<std::string, std::less<>> seen;
    while (!isAtEnd()) {
      const auto line = base::trim(takeLine());
      if (line.empty() || line.starts_with('#')) continue;
      if (line.starts_with("---")) return checkHeader(seen);
      const auto colon = line.find(':');
      if (colon == std::string_view::npos)
        return at(line_, 1, "before the line of dashes every line is \"key: value\"");
      const std::string key(base::trim(line.substr(0, colon)));
      if (!seen.insert(key).second) return at(line_, 1, "\"" + key + "\" is here twice");
      const auto read =
          readHeaderLine(key, std::string(base::trim(line.substr(colon + 1))), made_.header_);
      if (!read) return at(line_, 1, read.error().detail);
    }
    return at(line_, 1, "the line of dashes that ends the header is missing");
  }

  Result<Done> checkHeader(const std::set<std::string, std::less<>>& seen) {
    for (const auto key : headerKeys())
      if (key != "also" && key != "direction" && !seen.contains(key))
        return at(line_, 1, "the line \"" + std::string(key) + ": ...\" is missing above");
    return Done{};
  }

  Result<Done> body() {
    while (!isAtEnd()) {
      const auto line = takeLine();
      if (line.starts_with('#') && !line.starts_with("## ")) continue;
      if (const auto read = bodyLine(line); !read) return read.error();
    }
    if (!open_.empty())
      return at(open_.back().line, open_.back().column,
                "{" + mark(open_.back()) + "} is never closed; write {/" + open_.back().text +
                    "} where it ends");
    return Done{};
  }

  static std::string mark(const Part& part) {
    return (part.kind == Kind::ifFalse ? "!" : "?") + part.text;
  }

  Result<Done> bodyLine(std::string_view line) {
    std::size_t from = 0;
    while (from < line.size()) {
      const auto brace = line.find_first_of("{}", from);
      if (brace > from) add(Kind::text, line.substr(from, brace - from), 0);
      if (brace == std::string_view::npos) break;
      const int column = columnOf(line, brace);
      const auto end = line.find_first_of("{}", brace + 1);
      if (line[brace] == '}') return at(line_, column, "a } without its {");
      if (end == std::string_view::npos || line[end] == '{')
        return at(line_, column, "a { without its } on the same line");
      const auto read = tag(line.substr(brace + 1, end - brace - 1), column);
      if (!read) return read.error();
      from = end + 1;
    }
    add(Kind::text, "\n", 0);
    return Done{};
  }

  static int columnOf(std::string_view line, std::size_t byte) {
    return 1 + static_cast<int>(std::ranges::count_if(line.substr(0, byte), [](char c) {
             return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;
           }));
  }

  void add(Kind kind, std::string_view text, int column) {
    made_.parts_.push_back({kind, std::string(text), line_, column});
  }

  Result<Done> tag(std::string_view inside, int column) {
    const auto first = inside.empty() ? ' ' : inside.front();
    if (first != '?' && first != '!' && first != '/') return placeholder(inside, column);
    const auto name = inside.substr(1);
    if (findName(letterQuestions(), name) == nullptr)
      return at(line_, column, "no question has this name" + near(letterQuestions(), name));
    if (first == '/') return close(name, column);
    if (open_.size() == deepest)
      return at(line_, column,
                "more than " + std::to_string(deepest) + " parts within each other; close some");
    add(first == '?' ? Kind::ifTrue : Kind::ifFalse, name, column);
    open_.push_back(made_.parts_.back());
    used_.emplace(name);
    return Done{};
  }

  Result<Done> close(std::string_view name, int column) {
    if (open_.empty()) return at(line_, column, "{/" + std::string(name) + "} closes nothing");
    if (open_.back().text != name)
      return at(line_, column,
                "{/" + std::string(name) + "} comes before {/" + open_.back().text +
                    "}, which line " + std::to_string(open_.back().line) + " opened last");
    open_.pop_back();
    add(Kind::end, name, column);
    return Done{};
  }

  Result<Done> placeholder(std::string_view name, int column) {
    const auto* known = findName(letterPlaceholders(), name);
    if (known == nullptr)
      return at(line_, column, "no placeholder has this name" + near(letterPlaceholders(), name));
    const bool guarded =
        known->guards.empty() || std::ranges::any_of(open_, [&](const Part& part) {
          return part.kind == Kind::ifTrue &&
                 std::ranges::find(known->guards, part.text) != known->guards.end();
        });
    if (!guarded)
      return at(line_, column,
                "{" + std::string(name) + "} can be empty; wrap it in {?" +
                    std::string(known->guards.front()) + "} and {/" +
                    std::string(known->guards.front()) + "}");
    add(Kind::word, name, column);
    used_.emplace(name);
    return Done{};
  }

  static std::string near(const std::vector<LetterName>& names, std::string_view wanted) {
    const auto stem = wanted.substr(0, wanted.find('_'));
    std::vector<std::string> alike;
    for (const auto& one : names)
      if (!stem.empty() && one.name.starts_with(stem)) alike.emplace_back(one.name);
    if (alike.empty())
      for (const auto& one : names)
        alike.emplace_back(one.name);
    return "; there is: " + base::join(alike, ", ");
  }

  Result<Done> checkNeeded() {
    for (const auto* names : {&letterPlaceholders(), &letterQuestions()})
      for (const auto& one : *names)
        if (one.needed && !used_.contains(one.name))
          return at(line_, 1,
                    "the letter never uses {" +
                        std::string(names == &letterQuestions() ? "?" : "") +
                        std::string(one.name) + "}, and a guardian must be told what it means");
    return Done{};
  }

  std::string file_;
  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 0;
  LetterTemplate made_;
  std::vector<Part> open_;
  std::set<std::string, std::less<>> used_;
};

Result<LetterTemplate> LetterTemplate::parse(const std::string& file, std::string_view text) {
  return Parser(file, text).parse();
}

std::string LetterTemplate::fill(const LetterValues& values) const {
  std::string out;
  int hidden = 0; // how many parts around this one are left out
  std::vector<bool> shown;
  for (const auto& part : parts_) {
    switch (part.kind) {
    case Kind::ifTrue:
    case Kind::ifFalse:
      shown.push_back(values.facts.contains(part.text) == (part.kind == Kind::ifTrue));
      if (!shown.back()) ++hidden;
      break;
    case Kind::end:
      if (!shown.back()) --hidden;
      shown.pop_back();
      break;
    case Kind::text:
      if (hidden == 0) out += part.text;
      break;
    case Kind::word: {
      if (hidden != 0) break;
      const auto word = values.words.find(part.text);
      base::require(word != values.words.end() && !word->second.empty(),
                    "a letter without a word that its facts call for");
      out += word->second;
      break;
    }
    }
  }
  return out;
}

} // namespace gk::reports
