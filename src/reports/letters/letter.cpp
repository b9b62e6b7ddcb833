#include "reports/letters/letter.h"

#include "base/contract.h"
#include "base/text/text.h"
#include "reports/print/render.h"

#include <algorithm>

namespace gk::reports {

namespace {

using chairside::UrgentReason;
using dentition::Quadrant;
using dentition::Tooth;

constexpr std::string_view fallback = "English";

const std::string& placeOf(const LetterHeader& header, Quadrant quadrant) {
  switch (quadrant) {
  case Quadrant::upperRight:
    return header.upperRight;
  case Quadrant::upperLeft:
    return header.upperLeft;
  case Quadrant::lowerLeft:
    return header.lowerLeft;
  case Quadrant::lowerRight:
    return header.lowerRight;
  }
  base::fail("no such side of the mouth");
}

/// "upper right, 2 lower left": no number behind a side, where it would read as a tooth's.
std::string sides(const LetterHeader& header, const std::vector<Tooth>& teeth) {
  std::vector<std::string> words;
  for (const auto quadrant :
       {Quadrant::upperRight, Quadrant::upperLeft, Quadrant::lowerLeft, Quadrant::lowerRight}) {
    const auto count = std::ranges::count(teeth, quadrant, &Tooth::quadrant);
    if (count > 0)
      words.push_back((count > 1 ? std::to_string(count) + " " : "") + placeOf(header, quadrant));
  }
  return base::join(words, ", ");
}

class Values {
 public:
  explicit Values(const LetterHeader& header) : header_(header) {}

  void word(const std::string& name, std::string text) {
    made_.words.insert_or_assign(name, std::move(text));
  }
  void fact(const std::string& name, bool isSo) {
    if (isSo) made_.facts.insert(name);
  }
  void count(const std::string& name, int count) {
    fact(name, count > 0);
    fact(name + "_one", count == 1);
    fact(name + "_many", count > 1);
    word(name + "_count", std::to_string(count));
  }
  void teeth(const std::string& name, const std::vector<Tooth>& teeth) {
    count(name, static_cast<int>(teeth.size()));
    word(name + "_where", sides(header_, teeth));
  }
  void day(const std::string& name, const std::optional<base::Date>& date) {
    if (date) word(name, header_.dateWords(*date));
  }

  [[nodiscard]] const LetterValues& made() const { return made_; }

 private:
  const LetterHeader& header_;
  LetterValues made_;
};

void addWork(Values& values, const LetterFacts& facts) {
  values.teeth("sealed", facts.sealed);
  values.teeth("resealed", facts.resealed);
  values.teeth("repaired", facts.repaired);
  values.teeth("covered", facts.covered);
  values.teeth("unfinished", facts.unfinished);
  values.count("kept", facts.kept);
  values.fact("varnish", facts.varnish);
  values.fact("done", facts.didAnything());
  values.fact("sealants", !facts.sealed.empty() || !facts.resealed.empty() ||
                              !facts.repaired.empty() || facts.kept > 0);
  const bool none = facts.sealed.empty() && facts.resealed.empty() && facts.repaired.empty() &&
                    facts.covered.empty();
  values.fact("not_treated", none && !facts.unfinished.empty());
}

void addFindings(Values& values, const LetterFacts& facts) {
  using chairside::Urgency;
  values.count("decay", static_cast<int>(facts.mayHaveDecay.size()));
  values.fact("decay", facts.decay);
  values.fact("fine", facts.urgency == Urgency::none && !facts.decay &&
                          facts.variant != followup::LetterVariant::absent);
  values.fact("early", facts.urgency == Urgency::early);
  values.fact("urgent", facts.urgency == Urgency::urgent);
  values.fact("pain", facts.reason == UrgentReason::pain);
  values.fact("swelling", facts.reason == UrgentReason::swelling ||
                              facts.reason == UrgentReason::fistulaOrAbscess);
  values.fact("injury", facts.reason == UrgentReason::trauma);
  values.fact("sore", facts.reason == UrgentReason::softTissue);
  values.fact("reached", facts.phoned == Phoned::reached);
  values.fact("tried", facts.phoned == Phoned::tried);
  values.day("dentist_by", facts.dentistBy);
}

LetterText::Part partOf(std::string_view line) {
  if (line.starts_with("## "))
    return {LetterBlock::heading, std::string(base::trim(line.substr(3)))};
  if (line.starts_with("- ")) return {LetterBlock::item, std::string(base::trim(line.substr(2)))};
  return {LetterBlock::paragraph, std::string(base::trim(line))};
}

/// Spaces that a part left out has left behind.
std::string singleSpaced(std::string_view text) {
  std::vector<std::string> words;
  for (const auto word : base::split(text, ' '))
    if (!word.empty()) words.emplace_back(word);
  return base::join(words, " ");
}

/// Each line is a part; a heading that stands alone is dropped.
std::vector<LetterText::Part> letterParts(const std::string& filled) {
  std::vector<LetterText::Part> parts;
  const auto dropLoneHeading = [&] {
    if (!parts.empty() && parts.back().kind == LetterBlock::heading) parts.pop_back();
  };
  for (const auto raw : base::split(filled, '\n')) {
    const auto line = base::trim(raw);
    if (line.empty()) continue;
    auto part = partOf(line);
    part.text = singleSpaced(part.text);
    if (part.kind == LetterBlock::heading) dropLoneHeading();
    parts.push_back(std::move(part));
  }
  dropLoneHeading();
  return parts;
}

} // namespace

void LetterTemplates::add(LetterTemplate made) {
  const auto language = base::folded(made.header().language);
  std::erase_if(all_, [&](const LetterTemplate& old) {
    return base::folded(old.header().language) == language;
  });
  all_.push_back(std::move(made));
}

const LetterTemplate* LetterTemplates::find(std::string_view language) const {
  const auto wanted = base::folded(base::trim(language));
  for (const auto& one : all_) {
    const auto& header = one.header();
    if (base::folded(header.language) == wanted ||
        std::ranges::any_of(header.alsoAs,
                            [&](const auto& name) { return base::folded(name) == wanted; }))
      return &one;
  }
  return nullptr;
}

const LetterTemplate& LetterTemplates::english() const {
  const auto* found = find(fallback);
  base::require(found != nullptr, "letters without a template in English");
  return *found;
}

bool speaks(const LetterTemplates& templates, const LetterReader& reader) {
  return reader.language.empty() || templates.find(reader.language) != nullptr;
}

LetterText writeLetter(const LetterTemplates& templates, const LetterFrame& frame,
                       const LetterCard& card, const LetterReader& reader, const LetterFacts& facts,
                       std::optional<base::Date> replaces) {
  const auto* own = reader.language.empty() ? nullptr : templates.find(reader.language);
  const auto& used = own ? *own : templates.english();
  const auto& header = used.header();
  const bool absent = facts.variant == followup::LetterVariant::absent;
  Values values(header);
  values.word("child", card.legalName);
  values.word("name", card.nameUsed);
  values.word("program", frame.program);
  values.word("phone", frame.phone);
  values.word("school", frame.school);
  values.day("date", frame.date);
  values.word("reader", reader.names);
  values.fact("reader", !reader.names.empty());
  values.fact("student", reader.guardian == followup::toStudent);
  values.fact("interpreter", !speaks(templates, reader));
  values.word("language_asked", reader.language);
  values.fact("replaces", replaces.has_value());
  values.day("replaces_date", replaces);
  values.fact("absent", absent);
  values.fact("seen", !absent);
  values.fact("stopped", facts.variant == followup::LetterVariant::stopped);
  addWork(values, facts);
  addFindings(values, facts);
  return {header.language,
          header.rightToLeft,
          card.legalName,
          card.room,
          header.isDraft() ? header.draftMark : "",
          letterParts(used.fill(values.made())),
          header,
          header.dateWords(frame.date)};
}

std::string toText(const LetterText& letter) {
  std::string text;
  if (!letter.mark.empty()) text += letter.mark + "\n\n";
  for (const auto& part : letter.parts) {
    if (part.kind == LetterBlock::heading) text += "\n## ";
    if (part.kind == LetterBlock::item) text += "- ";
    text += part.text + "\n";
  }
  return text;
}

std::string toHtmlBody(const LetterText& letter) {
  std::string html;
  if (!letter.mark.empty())
    html += "<p style=\"border: 1px solid #111;\">" + escaped(letter.mark) + "</p>\n";
  bool inList = false;
  for (const auto& part : letter.parts) {
    const bool isItem = part.kind == LetterBlock::item;
    if (isItem != inList) html += isItem ? "<ul>\n" : "</ul>\n";
    inList = isItem;
    const std::string tag = isItem ? "li" : part.kind == LetterBlock::heading ? "h2" : "p";
    html += "<" + tag + ">" + escaped(part.text) + "</" + tag + ">\n";
  }
  return html + (inList ? "</ul>\n" : "");
}

std::string toHtml(const LetterText& letter) {
  return "<!DOCTYPE html>\n<html dir=\"" + std::string(letter.rightToLeft ? "rtl" : "ltr") +
         "\"><head><meta charset=\"utf-8\"><title>" + escaped(letter.child) +
         "</title>\n<style>body { max-width: 40em; margin: 2em auto; font: 12pt sans-serif; "
         "color: #111; }\nh2 { font-size: 12pt; margin: 0.8em 0 0; } p { margin: 0.2em 0; }</style>"
         "</head>\n<body>\n" +
         toHtmlBody(letter) + "<p>" + escaped(letter.child + ", " + letter.dateWords) +
         "</p>\n</body></html>\n";
}

} // namespace gk::reports
