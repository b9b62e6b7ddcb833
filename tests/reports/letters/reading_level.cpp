#include "reports/letters/reading_level.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <map>

namespace gk::test {

namespace {

bool isVowel(char c) {
  return std::string_view("aeiouy").find(c) != std::string_view::npos;
}

/// Words whose spelling hides a syllable or shows one too many, counted as a dictionary has them.
const std::map<std::string, int, std::less<>>& exceptions() {
  static const std::map<std::string, int, std::less<>> known{
      {"fluoride", 2},  {"area", 3},     {"idea", 3},      {"people", 2}, {"being", 2},
      {"something", 2}, {"someone", 2},  {"sometimes", 2}, {"safety", 2}, {"every", 2},
      {"evening", 2},   {"being", 2},    {"science", 2},   {"quiet", 2},  {"diet", 2},
      {"create", 2},    {"business", 2}, {"choose", 1},    {"usual", 3},  {"going", 2},
      {"our", 2},       {"hours", 2},    {"hour", 2},      {"rights", 1}};
  return known;
}

/// As read out: the groups are said digit by digit when there are more than two, as in a phone
/// number or a year.
int digitSyllables(std::string_view digits) {
  static constexpr std::array<int, 20> small{2, 1, 1, 1, 1, 1, 1, 2, 1, 1,
                                             1, 3, 1, 2, 2, 2, 2, 3, 2, 2};
  static constexpr std::array<int, 10> tens{0, 0, 2, 2, 2, 2, 2, 3, 2, 2};
  if (digits.size() == 1) return small.at(static_cast<std::size_t>(digits[0] - '0'));
  if (digits.size() == 2) {
    const int value = (digits[0] - '0') * 10 + (digits[1] - '0');
    if (value < 20) return small.at(static_cast<std::size_t>(value));
    return tens.at(static_cast<std::size_t>(value / 10)) +
           (value % 10 == 0 ? 0 : small.at(static_cast<std::size_t>(value % 10)));
  }
  if (digits.size() == 4 && digits[0] != '0')
    return digitSyllables(digits.substr(0, 2)) + digitSyllables(digits.substr(2));
  int sum = 0;
  for (const char digit : digits)
    sum += small.at(static_cast<std::size_t>(digit - '0'));
  return sum;
}

int vowelGroups(std::string_view word) {
  int groups = 0;
  bool inGroup = false;
  for (std::size_t i = 0; i < word.size(); ++i) {
    // A y that begins a word or stands before a vowel is a consonant: yes, beyond.
    const bool consonantY = word[i] == 'y' && i + 1 < word.size() && isVowel(word[i + 1]) &&
                            word[i + 1] != 'y' && (i == 0 || isVowel(word[i - 1]));
    const bool vowel = isVowel(word[i]) && !consonantY;
    if (vowel && !inGroup) ++groups;
    inGroup = vowel;
  }
  return groups;
}

/// Two vowels that are said apart.
int apart(std::string_view word) {
  int more = 0;
  for (std::size_t i = 0; i + 1 < word.size(); ++i) {
    const auto two = word.substr(i, 2);
    if (two == "ia" || two == "iu" || two == "ua" || two == "eo" || two == "uo" || two == "ya")
      ++more;
    if (two == "io" && (i == 0 || (word[i - 1] != 't' && word[i - 1] != 's' && word[i - 1] != 'g')))
      ++more;
    if (two == "ie" && i + 2 < word.size() && word[i + 2] == 't') ++more; // diet
  }
  return more;
}

int plainSyllables(std::string_view word) {
  if (const auto at = exceptions().find(word); at != exceptions().end()) return at->second;
  int count = vowelGroups(word) + apart(word);
  const auto ends = [&](std::string_view end) {
    return word.size() > end.size() && word.ends_with(end);
  };
  const auto before = [&](std::size_t back) { return word[word.size() - 1 - back]; };
  if (ends("e") && !isVowel(before(1)) && !(before(1) == 'l' && !isVowel(before(2)))) --count;
  if (ends("es") && !isVowel(before(2)) &&
      std::string_view("szxcg").find(before(2)) == std::string_view::npos && !ends("ches") &&
      !ends("shes") && !(before(2) == 'l' && !isVowel(before(3))))
    --count;
  if (ends("ed") && !isVowel(before(2)) && before(2) != 't' && before(2) != 'd') --count;
  if (ends("ely") || ends("eful") || ends("ement")) --count;
  return std::max(count, 1);
}

} // namespace

int syllables(std::string_view word) {
  std::string letters;
  std::string digits;
  int sum = 0;
  const auto flush = [&] {
    if (!letters.empty()) sum += plainSyllables(letters);
    if (!digits.empty()) sum += digitSyllables(digits);
    letters.clear();
    digits.clear();
  };
  for (const char c : word) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isdigit(byte) != 0) {
      if (!letters.empty()) flush();
      digits += c;
    } else if (std::isalpha(byte) != 0) {
      if (!digits.empty()) flush();
      letters += static_cast<char>(std::tolower(byte));
    } else if (c != '\'') {
      flush();
    }
  }
  flush();
  return sum;
}

double Reading::grade() const {
  return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
}

Reading measure(std::string_view text) {
  Reading reading;
  for (const auto line : base::split(text, '\n')) {
    bool open = false;
    for (const auto word : base::split(line, ' ')) {
      const int spoken = syllables(word);
      if (spoken > 0) {
        ++reading.words;
        reading.syllables += spoken;
        open = true;
      }
      const auto bare = word.substr(0, word.find_last_not_of("\")") + 1);
      const bool ends =
          !bare.empty() && std::string_view(".!?:").find(bare.back()) != std::string_view::npos;
      if (ends && open) {
        ++reading.sentences;
        open = false;
      }
    }
    if (open) ++reading.sentences;
  }
  return reading;
}

} // namespace gk::test
