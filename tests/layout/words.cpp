#include "layout/words.h"

#include <algorithm>
#include <array>
#include <regex>

namespace gk::layout {

namespace {

/// Whole words, lower case; a final * takes any ending. None of these stands in any sentence.
constexpr std::array plain{"mend",       "mends",           "mended",    "mending",    "anew",
                           "nought*",    "pupil*",          "colour*",   "licence*",   "neighbour*",
                           "behaviour*", "hypomineralised", "cancelled", "programme*", "enrolment",
                           "centre",     "autumn",          "nobody",    "somebody"};

/// And these in none that is read on the screen, on paper or in a page.
constexpr std::array banned{"maker's",
                            "makers",
                            "companion",
                            "handed over",
                            "handed in error",
                            "written down",
                            "took in",
                            "takes in",
                            "taken in",
                            "taken back",
                            "not up",
                            "part up",
                            "passed over",
                            "gone on",
                            "went on",
                            "goes on",
                            "morning check",
                            "sticking plaster",
                            "95 %",
                            "entitled",
                            "small numbers do not judge a person",
                            "rows behind",
                            "the same again",
                            "from memory",
                            "common practice",
                            "teeth spared",
                            "decay spared"};

std::regex patternOf(std::string_view words) {
  std::string pattern;
  const bool anyEnding = words.ends_with('*');
  for (const char c : words.substr(0, words.size() - (anyEnding ? 1 : 0)))
    pattern += c == ' ' ? std::string("\\s+") : std::string(1, c);
  const bool endsInWord = std::isalnum(static_cast<unsigned char>(words.back())) != 0;
  return std::regex("(^|[^a-z_-])" + pattern +
                        (anyEnding    ? "[a-z]*"
                         : endsInWord ? "(?![a-z_-])"
                                      : ""),
                    std::regex::icase | std::regex::optimize);
}

struct Pattern {
  std::string words;
  std::regex pattern;
  bool isPlain; ///< of `plain`
};

const std::vector<Pattern>& patterns() {
  static const auto made = [] {
    std::vector<Pattern> all;
    for (const std::string_view words : plain)
      all.push_back({std::string(words), patternOf(words), true});
    for (const std::string_view words : banned)
      all.push_back({std::string(words), patternOf(words), false});
    return all;
  }();
  return made;
}

/// A key, an option or a list of columns: lower case without a space but behind a comma.
bool isStoredName(const std::string& text) {
  static const std::regex stored("-{0,2}[a-z0-9_.-]+(, ?[a-z0-9_.-]+)*,? ?");
  return std::regex_match(text, stored);
}

bool isSql(const std::string& text) {
  static const std::regex sql("\\b(SELECT|INSERT INTO|CROSS JOIN|WHERE|UPDATE|DELETE FROM)\\b");
  return std::regex_search(text, sql);
}

enum class Look { all, plainOnly };

void lookIn(const std::string& text, const std::string& where, Findings& found,
            Look look = Look::all) {
  std::string lower(text);
  std::ranges::transform(lower, lower.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const auto& [words, pattern, isPlain] : patterns())
    if ((isPlain || look == Look::all) &&
        lower.find(words.substr(0, words.find_first_of(" *"))) != std::string::npos &&
        std::regex_search(text, pattern))
      found.push_back(where + ": \"" + words + "\" in \"" + text.substr(0, 90) + "\"");
}

bool isIn(std::string_view path, std::initializer_list<std::string_view> places) {
  return std::ranges::any_of(places, [&](auto place) { return path.starts_with(place); });
}

std::string withoutComments(const std::string& line) {
  return line.substr(0, line.find("//"));
}

/// Lines with the pattern outside of comments.
Findings linesWith(const SourceFile& file, const std::regex& pattern, std::string_view why) {
  Findings found;
  int number = 0;
  std::size_t from = 0;
  while (from < file.text.size()) {
    const auto end = std::min(file.text.find('\n', from), file.text.size());
    ++number;
    if (std::regex_search(withoutComments(file.text.substr(from, end - from)), pattern))
      found.push_back(file.path + ":" + std::to_string(number) + ": " + std::string(why));
    from = end + 1;
  }
  return found;
}

} // namespace

std::vector<Literal> literalsOf(std::string_view text) {
  std::vector<Literal> found;
  bool joins = false;  // nothing but blanks since the last string
  bool stored = false; // within a table of stored names, which ends with its statement
  int line = 1;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto rest = text.substr(i);
    if (text[i] == '\n') ++line;
    if (std::isspace(static_cast<unsigned char>(text[i])) != 0) continue;
    if (rest.starts_with("//") || rest.starts_with("#include")) {
      i = std::min(text.find('\n', i), text.size()) - 1;
      continue;
    }
    if (rest.starts_with("enumNames<")) stored = true;
    if (text[i] == ';') stored = false;
    if (text[i] == '\'' && i + 2 < text.size() && (text[i + 1] == '\\' || text[i + 2] == '\'')) {
      i = std::min(text.find('\'', i + (text[i + 1] == '\\' ? 3U : 2U)), text.size()); // or cut off
      joins = false;
      continue;
    }
    if (text[i] != '"') {
      // "a"_s "b" is one string; so is u"a" u"b".
      const bool isAffix = rest.starts_with("_s") || rest.starts_with("u\"");
      if (isAffix)
        i += rest.starts_with("_s") ? 1U : 0U;
      else
        joins = false;
      continue;
    }
    const bool isRaw = i > 0 && text[i - 1] == 'R';
    const auto close = isRaw ? std::min(text.find(")\"", i), text.size() - 1) + 1 : [&] {
      auto at = i + 1;
      while (at < text.size() && text[at] != '"')
        at += text[at] == '\\' ? 2U : 1U;
      return at;
    }();
    const auto inside = std::string(text.substr(i + 1, close - i - 1));
    if (!stored && joins)
      found.back().text += inside;
    else if (!stored)
      found.push_back({line, inside});
    joins = !stored;
    line += static_cast<int>(std::ranges::count(inside, '\n'));
    i = close;
  }
  return found;
}

std::vector<Literal> remarksOf(std::string_view text) {
  std::vector<Literal> found;
  int line = 1;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') ++line;
    const bool isLetter =
        text[i] == '\'' && (i == 0 || std::isdigit(static_cast<unsigned char>(text[i - 1])) == 0);
    if (text[i] == '"' || isLetter) { // what is in it begins no remark
      const char ends = text[i];
      for (++i; i < text.size() && text[i] != ends; ++i)
        if (text[i] == '\\') ++i;
    } else if (text.substr(i).starts_with("//")) {
      const auto end = std::min(text.find('\n', i), text.size());
      found.push_back({line, std::string(text.substr(i, end - i))});
      i = end - 1;
    }
  }
  return found;
}

std::vector<Literal> testNamesOf(const std::string& text) {
  static const std::regex opens("\\b(TEST_CASE|SECTION)\\(\\s*\"");
  constexpr std::size_t longest = 600;
  std::vector<Literal> found;
  for (auto at = std::sregex_iterator(text.begin(), text.end(), opens);
       at != std::sregex_iterator(); ++at) {
    const auto from = static_cast<std::size_t>(at->position());
    const auto names = literalsOf(std::string_view(text).substr(from, longest));
    if (names.empty()) continue;
    const auto line = 1 + std::ranges::count(text.substr(0, from), '\n');
    found.push_back({static_cast<int>(line), names.front().text});
  }
  return found;
}

Findings checkOwnWords(const SourceFile& file) {
  static const std::regex code("`[^`]*`");
  Findings found;
  const auto look = [&](const Literal& one) {
    lookIn(std::regex_replace(one.text, code, ""), file.path + ":" + std::to_string(one.line),
           found, Look::plainOnly);
  };
  std::ranges::for_each(remarksOf(file.text), look);
  std::ranges::for_each(testNamesOf(file.text), look);
  return found;
}

Findings checkReportWords(const SourceFile& file) {
  if (isIn(file.path, {"src/reports/letters/letter", "src/reports/sheets/consent_form",
                       "src/reports/calls/urgent_form"}))
    return {};
  static const std::regex child("\\b[Cc]hild(ren)?\\b");
  Findings found;
  for (const auto& literal : literalsOf(file.text))
    if (!isStoredName(literal.text) && std::regex_search(literal.text, child))
      found.push_back(file.path + ":" + std::to_string(literal.line) + ": \"students\" in \"" +
                      literal.text.substr(0, 90) + "\"");
  return found;
}

Findings checkWords(const SourceFile& file) {
  Findings found;
  for (const auto& literal : literalsOf(file.text))
    if (!isStoredName(literal.text) && !isSql(literal.text))
      lookIn(literal.text, file.path + ":" + std::to_string(literal.line), found);
  return found;
}

Findings checkPage(const SourceFile& file) {
  Findings found;
  static const std::regex code(
      "```[^`]*```|`[^`\n]*`|\n## [a-z.-]+\n"); // an error's code is stored
  lookIn(std::regex_replace(file.text, code, ""), file.path, found);
  return found;
}

Findings checkShownNames(const SourceFile& file) {
  // Settings, the name that an issued report is kept under, what is signed, and what other
  // programs read.
  constexpr std::array kept{"ui/files/kept_file.cpp",
                            "ui/totals/totals_save.cpp",
                            "src/reports/letters/letter_facts.cpp",
                            "src/reports/publish/release_lines.cpp",
                            "src/office/tables/tables_json.cpp",
                            "src/reports/print/cell.h",
                            "src/reports/day/close_out_tables.cpp",
                            "src/reports/services/payer_report.cpp",
                            "src/reports/term/term_tables.cpp",
                            "src/office/reports/letter_verbs.cpp",
                            "src/office/reports/report_verb.cpp",
                            "src/office/desk/apply_verb.cpp",
                            "src/roster/list/roster_row.h",
                            "src/roster/list/roster_columns.cpp",
                            "src/office/desk/roster_verbs.cpp",
                            "src/office/book/book_verbs.cpp",
                            "src/session/reporting/issues.cpp",
                            "src/roster/keys/keys.cpp"};
  if (std::ranges::find(kept, file.path) != kept.end()) return {};
  if (isIn(file.path, {"src/base/", "src/store/", "src/exchange/"})) return {};
  static const std::regex names("base::nameOf\\(|base::enumNames<[^>]*>(?! *=)");
  auto found = linesWith(file, names, "a stored name where a person reads; use displayName");
  // A table of stored names is said where its enumeration is.
  static const std::regex table("gk::base::enumNames<");
  std::erase_if(found, [&](const auto&) {
    return file.path.ends_with(".h") && std::regex_search(file.text, table) &&
           file.text.find("base::nameOf(") == std::string::npos;
  });
  return found;
}

Findings checkOneWay(const SourceFile& file) {
  Findings found;
  const auto add = [&](const char* pattern, std::string_view why) {
    auto more = linesWith(file, std::regex(pattern), why);
    found.insert(found.end(), more.begin(), more.end());
  };
  if (!isIn(file.path, {"src/base/"})) {
    add("%02[du]", "a date or a time is written by base/time/date.h alone");
    add("fixed\\(100(\\.0)? \\*", "a percent is written by base::percent alone");
    add("\\.text\\(\\)\\.substr|\\.text\\(\\)\\)\\.right", "a time is written by clockWords alone");
  }
  // A date for a file's name, a form's value, a cell that the printing writes out, other programs.
  const bool mayBeIso =
      isIn(file.path, {"src/base/", "src/store/", "src/exchange/", "src/office/", "src/reports/",
                       "src/dentition/", "src/followup/copies/backup_rotation.cpp",
                       "src/session/book/book_facts.cpp", "ui/files/kept_file.cpp",
                       "ui/forms/field", "ui/desk/", "ui/close_out/letters_desk.cpp",
                       "ui/close_out/close_out_files.cpp", "ui/board/readiness_page.cpp"});
  if (!mayBeIso)
    add("([dD]ate|[oO]n|[eE]xpiry|[uU]ntil|[bB]irth|today|day|given|written|issued)(\\(\\))?(\\.|->"
        ")iso\\(\\)",
        "a person reads Date::words or shortWords");
  if (isIn(file.path, {"ui/"}))
    add("toString\\(u?\"[^\"]*(yy|dd|hh|mm)",
        "a date or a time is written by base/time/date.h alone");
  return found;
}

} // namespace gk::layout
