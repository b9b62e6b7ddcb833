#include "exchange/lists/workbook.h"

#include "exchange/lists/package.h"
#include "exchange/lists/sheets.h"

#include "base/text/text.h"

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

/// The first sheet that is shown, and how dates are counted.
class Book final : public PartReader {
 public:
  void begin(std::string_view name, const Attributes& attributes) override {
    const auto is = [&](std::string_view key, std::string_view value) {
      const auto at = attributes.find(key);
      return at != attributes.end() && at->second == value;
    };
    if (name == "workbookPr") is1904 = is("date1904", "1") || is("date1904", "true");
    const bool isHidden = is("state", "hidden") || is("state", "veryHidden");
    if (name == "sheet" && sheet.empty() && !isHidden)
      if (const auto id = attributes.find("id"); id != attributes.end()) sheet = id->second;
  }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

  std::string sheet{};
  bool is1904 = false;
};

Result<ListRows> readXlsx(Package& package) {
  Book book;
  Relations relations;
  Strings strings;
  Styles styles;
  if (const auto read = package.read(std::string(inXlsx), book); !read) return read.error();
  if (const auto read = package.read("xl/_rels/workbook.xml.rels", relations); !read)
    return read.error();
  const auto sheet = relations.targets.find(book.sheet);
  if (sheet == relations.targets.end())
    return Error{ErrorCode::csvMalformed, "the workbook has no sheet that is shown"};
  if (!relations.strings.empty())
    if (const auto read = package.read(relations.strings, strings); !read) return read.error();
  if (!relations.styles.empty())
    if (const auto read = package.read(relations.styles, styles); !read) return read.error();
  XlsxSheet rows(strings, styles, book.is1904);
  if (const auto read = package.read(sheet->second, rows); !read) return read.error();
  return ListRows{std::move(rows.rows), {"Read the first sheet of the workbook."}};
}

} // namespace

Result<ListRows> readWorkbook(std::string_view bytes, const WorkbookLimits& limits) {
  auto package = Package::open(bytes, limits);
  if (!package) return package.error();
  if (package->has(std::string(inXlsx))) return readXlsx(*package);
  if (package->has(std::string(inOds))) {
    OdsSheet rows;
    if (const auto read = package->read(std::string(inOds), rows); !read) return read.error();
    return ListRows{std::move(rows.rows), {"Read the first sheet of the workbook."}};
  }
  return Error{ErrorCode::csvMalformed,
               "this is a packed file, but no workbook; unpack it and choose the list in it"};
}

} // namespace gk::exchange
