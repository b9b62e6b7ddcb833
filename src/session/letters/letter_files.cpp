#include "session/letters/letter_files.h"

#include "base/text/text.h"
#include "reports/letters/letter.h"
#include "session/letters/letters.h"

#include <algorithm>
#include <filesystem>

namespace gk::session {

using base::Error;
using base::ErrorCode;
using base::Result;
using reports::LetterTemplate;

namespace {

constexpr std::size_t mostOfTemplate = std::size_t{64} * 1024U;

base::Path folderOf(const base::Path& book, Worded of) {
  return book.parent_path() / (of == Worded::letter ? "letters" : "forms");
}

base::Path formFile(const base::Path& book, const std::string& language) {
  return folderOf(book, Worded::consentForm) / (base::folded(language) + ".txt");
}

bool isThere(const base::Path& file) {
  std::error_code unread;
  return std::filesystem::exists(file, unread);
}

/// The file in the folder that says exactly this; empty where none does.
base::Path fileSaying(const base::Path& folder, const std::string& text) {
  std::error_code unread;
  for (std::filesystem::directory_iterator at(folder, unread), end; !unread && at != end;
       at.increment(unread)) {
    if (at->path().extension() != ".txt") continue;
    const auto read = base::readFile(at->path(), mostOfTemplate);
    if (read && *read == text) return at->path();
  }
  return {};
}

/// No longer a template, and nothing is lost.
Result<base::Done> putAside(const base::Path& file) {
  std::error_code trouble;
  auto kept = file;
  kept += ".old";
  std::filesystem::rename(file, base::freeName(kept), trouble);
  if (trouble)
    return Error{ErrorCode::fileUnwritable, file.string() + ": cannot be renamed; close it first"};
  return base::Done{};
}

} // namespace

Result<std::vector<reports::ConsentTemplate>> consentTemplates(const base::Path& book) {
  std::vector<reports::ConsentTemplate> all;
  for (const auto& shipped : reports::shippedForms()) {
    auto made = reports::ConsentTemplate::parse(std::string(shipped.file), shipped.text);
    if (!made) return made.error();
    if (const auto own = formFile(book, made->language()); isThere(own)) {
      const auto text = base::readFile(own, mostOfTemplate);
      if (!text) return text.error();
      made = reports::ConsentTemplate::parse(own.string(), *text);
      if (!made) return made.error();
    }
    all.push_back(*std::move(made));
  }
  return all;
}

Result<std::vector<TemplateFile>> templateFiles(const base::Path& book) {
  const auto letters = letterTemplates(book);
  if (!letters) return letters.error();
  std::vector<TemplateFile> files;
  for (const auto& one : letters->all()) {
    const auto& header = one.header();
    const bool isShipped =
        std::ranges::any_of(reports::shippedTemplates(),
                            [&](const auto& shipped) { return shipped.text == one.source(); });
    auto approved = header.approvedBy;
    if (!approved.empty() && header.approvedOn) approved += ", " + header.approvedOn->words();
    files.push_back(
        {Worded::letter, header.language, !isShipped,
         isShipped ? base::Path() : fileSaying(folderOf(book, Worded::letter), one.source()),
         approved, one.source()});
  }
  const auto forms = consentTemplates(book);
  if (!forms) return forms.error();
  for (const auto& one : *forms) {
    const auto own = formFile(book, one.language());
    const bool isOwn = isThere(own);
    files.push_back({Worded::consentForm, one.language(), isOwn, isOwn ? own : base::Path(),
                     one.approvedBy(), one.source()});
  }
  return files;
}

namespace {

/// The language of a template that is sound.
Result<std::string> languageOf(Worded of, const std::string& name, const std::string& text) {
  if (of == Worded::letter) {
    const auto made = LetterTemplate::parse(name, text);
    if (!made) return made.error();
    return made->header().language;
  }
  const auto made = reports::ConsentTemplate::parse(name, text);
  if (!made) return made.error();
  std::vector<std::string> printed;
  for (const auto& shipped : reports::shippedForms())
    if (const auto one = reports::ConsentTemplate::parse(std::string(shipped.file), shipped.text)) {
      if (base::folded(one->language()) == base::folded(made->language())) return one->language();
      printed.push_back(one->language());
    }
  return Error{ErrorCode::letterTemplate, name + ": consent forms are printed in " +
                                              base::join(printed, " and ") +
                                              ", and its line \"language:\" names none of them"};
}

} // namespace

Result<std::string> replaceTemplate(const base::Path& book, Worded of, const base::Path& file) {
  const auto text = base::readFile(file, mostOfTemplate);
  if (!text) return text.error();
  const auto language = languageOf(of, file.filename().string(), *text);
  if (!language) return language.error();
  const auto before = templateFiles(book);
  if (!before) return before.error();
  const auto folder = folderOf(book, of);
  if (const auto there = base::makeFolder(folder); !there) return there.error();
  auto target = of == Worded::consentForm
                    ? formFile(book, *language)
                    : base::freeName(folder / (base::folded(*language) + ".txt"));
  for (const auto& one : *before)
    if (one.of == of && one.language == *language && one.isOwn && !one.file.empty()) {
      if (one.text == *text) return *language;
      if (const auto aside = putAside(one.file); !aside) return aside.error();
      target = one.file;
    }
  if (const auto written = base::replaceFile(target, *text); !written) return written.error();
  return *language;
}

Result<base::Done> backToShipped(const base::Path& book, Worded of, const std::string& language) {
  const auto files = templateFiles(book);
  if (!files) return files.error();
  for (const auto& one : *files)
    if (one.of == of && one.language == language && one.isOwn && !one.file.empty())
      return putAside(one.file);
  return Error{ErrorCode::notFound, "the built-in text in " + language + " is used already"};
}

} // namespace gk::session
