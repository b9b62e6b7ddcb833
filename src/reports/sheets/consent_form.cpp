#include "reports/sheets/consent_form.h"

#include "base/text/text.h"

#include <algorithm>
#include <array>
#include <set>

namespace gk::reports {

using base::Error;
using base::ErrorCode;

namespace {

constexpr std::array placeholders{"program", "phone", "child", "number", "school", "grade", "room"};
constexpr std::string_view toWriteOn = "____________________";
constexpr std::size_t mostTemplateBytes = 64'000;

/// Whether each name in braces is one of those. What a wrong one is called is not said: whoever
/// chose another file than meant may have a student's name there.
bool areKnown(std::string_view text) {
  for (auto at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1)) {
    const auto end = text.find('}', at);
    if (end == std::string_view::npos ||
        std::ranges::find(placeholders, text.substr(at + 1, end - at - 1)) == placeholders.end())
      return false;
  }
  return true;
}

std::string filled(const std::string& text, const std::map<std::string, std::string>& words) {
  std::string out;
  std::size_t from = 0;
  for (auto at = text.find('{'); at != std::string::npos; at = text.find('{', from)) {
    const auto end = text.find('}', at);
    out += text.substr(from, at - from) + words.at(text.substr(at + 1, end - at - 1));
    from = end + 1;
  }
  return out + text.substr(from);
}

std::string_view after(std::string_view line, std::string_view mark) {
  return base::trim(line.substr(mark.size()));
}

} // namespace

base::Result<ConsentTemplate> ConsentTemplate::parse(const std::string& file,
                                                     std::string_view text) {
  std::size_t number = 0;
  const auto wrong = [&](const std::string& why) {
    return Error{ErrorCode::letterTemplate, file + ", line " + std::to_string(number) + ": " + why};
  };
  if (text.size() > mostTemplateBytes) return wrong("longer than a form can be");
  if (const auto sound = base::soundText(text); !sound) return wrong(sound.error().detail);
  ConsentTemplate made;
  made.source_ = std::string(text);
  std::set<std::string> said;
  bool inBody = false;
  bool hasBox = false;
  bool canSign = false;
  std::string paragraph;
  const auto endParagraph = [&] {
    if (!paragraph.empty()) made.parts_.push_back({FormPart::Kind::text, paragraph});
    paragraph.clear();
  };
  for (auto line : base::split(text, '\n')) {
    ++number;
    line = base::trim(line);
    if (line.starts_with('#') && !line.starts_with("##")) continue;
    if (!inBody) {
      if (line.empty()) continue;
      if (line.starts_with("-----")) {
        inBody = true;
        continue;
      }
      const auto colon = line.find(':');
      if (colon == std::string_view::npos) return wrong("a line \"key: value\" is expected here");
      const std::string key(base::trim(line.substr(0, colon)));
      const std::string value(base::trim(line.substr(colon + 1)));
      if (key == "language")
        made.language_ = value;
      else if (key == "version")
        made.version_ = value;
      else if (key == "draft")
        made.draftMark_ = value;
      else if (key == "approved")
        made.approvedBy_ = value == "no" ? std::string() : value;
      else
        return wrong("this is no line of a form's header; use language, version, approved, draft");
      if (!said.insert(key).second) return wrong("\"" + key + "\" is said twice");
      if (value.empty()) return wrong("\"" + key + "\" is empty");
      continue;
    }
    if (!areKnown(line))
      return wrong("a word in braces is not known; use " +
                   base::join({placeholders.begin(), placeholders.end()}, ", "));
    if (line.empty()) {
      endParagraph();
    } else if (line.starts_with("##")) {
      endParagraph();
      made.parts_.push_back({FormPart::Kind::heading, std::string(after(line, "##"))});
    } else if (line.starts_with("[]")) {
      endParagraph();
      made.parts_.push_back({FormPart::Kind::box, std::string(after(line, "[]"))});
      hasBox = true;
    } else if (line.starts_with("__")) {
      endParagraph();
      FormPart part{FormPart::Kind::write};
      for (const auto label : base::split(after(line, "__"), '|'))
        part.labels.emplace_back(base::trim(label));
      made.parts_.push_back(std::move(part));
      canSign = true;
    } else {
      paragraph += (paragraph.empty() ? "" : " ") + std::string(line);
    }
  }
  endParagraph();
  if (!inBody) return wrong("a line of dashes after the header is missing");
  for (const auto* key : {"language", "version", "approved", "draft"})
    if (!said.contains(key)) return wrong(std::string("the line \"") + key + ":\" is missing");
  if (!hasBox) return wrong("a form needs a box to check: a line that starts with []");
  if (!canSign) return wrong("a form needs a line to sign on: a line that starts with __");
  return made;
}

ConsentSheet ConsentTemplate::fill(const std::string& program, const std::string& phone,
                                   const FormChild& child) const {
  const auto orLine = [&](const std::string& word) {
    return word.empty() && child.isBlank() ? std::string(toWriteOn) : word;
  };
  const std::map<std::string, std::string> words{{"program", program},
                                                 {"phone", phone},
                                                 {"child", orLine(child.name)},
                                                 {"number", orLine(child.number)},
                                                 {"school", orLine(child.school)},
                                                 {"grade", orLine(child.grade)},
                                                 {"room", orLine(child.room)}};
  ConsentSheet sheet{language_, version_, child.number, isDraft() ? draftMark_ : std::string(),
                     parts_};
  for (auto& part : sheet.parts) {
    part.text = filled(part.text, words);
    for (auto& label : part.labels)
      label = filled(label, words);
  }
  return sheet;
}

} // namespace gk::reports
