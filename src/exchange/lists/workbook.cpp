#include "exchange/lists/workbook.h"

#include "exchange/lists/list_text.h"
#include "exchange/lists/package.h"
#include "exchange/lists/sheets.h"

#include "base/text/text.h"

#include <algorithm>
#include <optional>

namespace gk::exchange {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr std::string_view inXlsx = "xl/workbook.xml";
constexpr std::string_view inOds = "content.xml";

/// Where the parts of an .xlsx lie, by their relation to the workbook.
class Relations final : public PartReader {
 public:
  void begin(std::string_view name, const Attributes& attributes) override {
    const auto id = attributes.find("Id");
    const auto target = attributes.find("Target");
    if (name != "Relationship" || id == attributes.end() || target == attributes.end()) return;
    auto path = target->second;
    path = path.starts_with('/') ? path.substr(1) : "xl/" + path;
    targets.emplace(id->second, path);
    const auto type = attributes.find("Type");
    if (type == attributes.end()) return;
    if (type->second.ends_with("/sharedStrings")) strings = path;
    if (type->second.ends_with("/styles")) styles = path;
  }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

  std::map<std::string, std::string> targets{};
  std::string strings{};
  std::string styles{};
};

/// The sheets in order, and how dates are counted.
class Book final : public PartReader {
 public:
  struct Sheet {
    std::string id;
    std::string name;
    bool isHidden;
  };

  void begin(std::string_view name, const Attributes& attributes) override {
    const auto is = [&](std::string_view key, std::string_view value) {
      const auto at = attributes.find(key);
      return at != attributes.end() && at->second == value;
    };
    if (name == "workbookPr") is1904 = is("date1904", "1") || is("date1904", "true");
    if (name != "sheet") return;
    const auto id = attributes.find("id");
    if (id == attributes.end()) return;
    if (sheets.size() >= mostSheets) return stop("it has too many sheets");
    const auto called = attributes.find("name");
    sheets.push_back({id->second,
                      called == attributes.end() ? std::string() : cleaned(called->second).utf8,
                      is("state", "hidden") || is("state", "veryHidden")});
  }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

  std::vector<Sheet> sheets{};
  bool is1904 = false;

 private:
  static constexpr std::size_t mostSheets = 1000;
};

/// "3 sheets; read Baker; not read: Cole, Dunn."
std::string sheetsNote(const std::string& read, const std::vector<std::string>& others) {
  if (others.empty()) return "Read the first sheet of the workbook.";
  constexpr std::size_t shown = 12;
  std::vector<std::string> named(
      others.begin(), others.begin() + static_cast<std::ptrdiff_t>(std::min(shown, others.size())));
  if (others.size() > shown) named.push_back(std::to_string(others.size() - shown) + " more");
  return std::to_string(others.size() + 1) + " sheets; read " + read +
         "; not read: " + base::join(named, ", ") + ".";
}

ListRows rowsOf(SheetRows& sheet, std::string note) {
  ListRows list{std::move(sheet.rows), {std::move(note)}};
  if (sheet.readTwice > 0)
    list.notes.push_back(readTwiceNote(sheet.readTwice, "cell was", "cells were"));
  return list;
}

Result<ListRows> readXlsx(Package& package, const IsList& isList) {
  Book book;
  Relations relations;
  Strings strings;
  Styles styles;
  if (const auto read = package.read(std::string(inXlsx), book); !read) return read.error();
  if (const auto read = package.read("xl/_rels/workbook.xml.rels", relations); !read)
    return read.error();
  std::vector<const Book::Sheet*> shown;
  for (const auto& sheet : book.sheets)
    if (!sheet.isHidden && relations.targets.contains(sheet.id)) shown.push_back(&sheet);
  if (shown.empty())
    return Error{ErrorCode::csvMalformed, "the workbook has no sheet that is shown"};
  if (!relations.strings.empty())
    if (const auto read = package.read(relations.strings, strings); !read) return read.error();
  if (!relations.styles.empty())
    if (const auto read = package.read(relations.styles, styles); !read) return read.error();
  std::optional<ListRows> found;
  const auto* taken = shown.front();
  for (const auto* sheet : shown) {
    XlsxSheet rows(strings, styles, book.is1904);
    if (const auto read = package.read(relations.targets.at(sheet->id), rows); !read) {
      // One that is no list may be longer than any; the first is what was meant.
      if (found) break;
      return read.error();
    }
    const bool isFound = !isList || isList(rows.rows);
    if (isFound || !found) {
      found = rowsOf(rows, {});
      taken = sheet;
    }
    if (isFound) break;
  }
  std::vector<std::string> others;
  for (const auto& sheet : book.sheets)
    if (&sheet != taken) others.push_back(sheet.name + (sheet.isHidden ? " (hidden)" : ""));
  found->notes.front() = sheetsNote(taken->name, others);
  return std::move(*found);
}

Result<ListRows> readOds(Package& package, const IsList& isList) {
  OdsSheet sheets(isList);
  if (const auto read = package.read(std::string(inOds), sheets); !read) return read.error();
  sheets.settle();
  auto others = sheets.names;
  std::string taken;
  if (sheets.taken < others.size()) {
    taken = others[sheets.taken];
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(sheets.taken));
  }
  return rowsOf(sheets, sheetsNote(taken, others));
}

} // namespace

Result<ListRows> readWorkbook(std::string_view bytes, const IsList& isList,
                              const WorkbookLimits& limits) {
  auto package = Package::open(bytes, limits);
  if (!package) return package.error();
  if (package->has(std::string(inXlsx))) return readXlsx(*package, isList);
  if (package->has(std::string(inOds))) return readOds(*package, isList);
  return Error{ErrorCode::csvMalformed,
               "this is a packed file, but no workbook; unpack it and choose the list in it"};
}

} // namespace gk::exchange
