#include "reports/sheets/consent_form.h"
#include "reports/sheets/label_sheet.h"
#include "reports/sheets/qr_code.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace gk;
using base::ErrorCode;
using reports::ConsentTemplate;
using reports::FormPart;

namespace {

const std::string goodForm = "# a remark\n"
                             "language: English\nversion: 1\napproved: no\ndraft: DRAFT.\n-----\n"
                             "## Form of {program}\n"
                             "For {child},\nnumber {number}.\n\n"
                             "[] Yes\n__ Signature | Date\n";

std::string changed(const std::string& from, const std::string& to) {
  auto text = goodForm;
  text.replace(text.find(from), from.size(), to);
  return text;
}

std::string refusal(const std::string& text) {
  const auto read = ConsentTemplate::parse("form.txt", text);
  REQUIRE_FALSE(read.has_value());
  CHECK(read.error().code == ErrorCode::letterTemplate);
  return read.error().detail;
}

} // namespace

TEST_CASE("A form says for whom it is, and a blank one leaves lines to write on", "[case-296]") {
  const auto form = ConsentTemplate::parse("form.txt", goodForm).value();
  const auto sheet =
      form.fill("Larkmere", "000-555-0142", {"1043-0", "Mina Tolliver-Reed", "Cobble", "2", "6"});
  REQUIRE(sheet.parts.size() == 4);
  CHECK(sheet.parts[0].text == "Form of Larkmere");
  CHECK(sheet.parts[1].text == "For Mina Tolliver-Reed, number 1043-0.");
  CHECK(sheet.parts[3].labels == std::vector<std::string>{"Signature", "Date"});
  CHECK(sheet.number == "1043-0");
  CHECK(sheet.draftMark == "DRAFT.");
  const auto blank = form.fill("Larkmere", "000-555-0142", {});
  CHECK(blank.number.empty());
  CHECK(blank.parts[1].text.find("For ____") == 0);
  const auto approved = ConsentTemplate::parse("f", changed("approved: no", "approved: Dr. Quill"));
  CHECK(approved->fill("P", "1", {}).draftMark.empty());
}

TEST_CASE("A form that is not whole is refused with its line", "[case-296]") {
  CHECK(refusal(changed("{child}", "{name}"))
            .starts_with("form.txt, line 8: a word in braces is not known; use program, phone"));
  CHECK(refusal(changed("{child}", "{child")).starts_with("form.txt, line 8"));
  CHECK(refusal(changed("version: 1\n", "")).find("\"version:\" is missing") != std::string::npos);
  CHECK(refusal(changed("version: 1", "version:")).find("is empty") != std::string::npos);
  CHECK(refusal(changed("version: 1", "language: x")).find("said twice") != std::string::npos);
  CHECK(refusal(changed("version: 1", "colour: x"))
            .find("line 3: this is no line of a form's header") != std::string::npos);
  CHECK(refusal(changed("[] Yes\n", "")).find("box") != std::string::npos);
  CHECK(refusal(changed("__ Signature | Date\n", "")).find("sign") != std::string::npos);
  CHECK(refusal(changed("-----\n", "")).find("key: value") != std::string::npos);
  CHECK(refusal("").find("dashes") != std::string::npos);
  CHECK(refusal(std::string(70'000, 'x')).find("longer") != std::string::npos);
}

TEST_CASE("What a form is refused for repeats nothing that stands in it", "[case-256]") {
  // Whoever chose another file than meant may have a student's name anywhere in it.
  for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
           {"{child}", "{Mina Tolliver}"},
           {"{child}", "{Mina Tolliver"},
           {"version: 1", "Mina Tolliver: 1"},
           {"version: 1", "Mina Tolliver: 1\nMina Tolliver: 1"},
           {"version: 1", "Mina Tolliver:"},
           {"version: 1", "version: 1\nversion: Mina Tolliver"},
           {"version: 1", "Mina Tolliver"},
           {"[] Yes\n", "Mina Tolliver\n"},
           {"-----\n", "Mina Tolliver: Mina Tolliver\n"}}) {
    INFO(to);
    CHECK(refusal(changed(from, to)).find("Mina") == std::string::npos);
    CHECK(refusal(changed(from, to)).find("Tolliver") == std::string::npos);
  }
}

TEST_CASE(
    "The shipped forms are whole, say the same in both languages, and are drafts that defer to "
    "the program's own wording",
    "[case-296]") {
  const auto& shipped = reports::shippedForms();
  REQUIRE(shipped.size() == 2);
  std::vector<ConsentTemplate> forms;
  for (const auto& one : shipped)
    forms.push_back(ConsentTemplate::parse(std::string(one.file), one.text).value());
  CHECK(forms[0].language() == "English");
  CHECK(forms[1].language() == "Spanish");
  CHECK(forms[0].version() == forms[1].version());
  const auto shapeOf = [](const ConsentTemplate& form) {
    std::vector<std::pair<FormPart::Kind, std::size_t>> shape;
    for (const auto& part : form.fill("P", "1", {}).parts)
      shape.emplace_back(part.kind, part.labels.size());
    return shape;
  };
  CHECK(shapeOf(forms[0]) == shapeOf(forms[1]));
  for (const auto& form : forms)
    CHECK(form.isDraft());
  const auto texts = [&](std::size_t which) {
    std::string all;
    for (const auto& part : forms[which].fill("P", "1", {}).parts)
      all += part.text + "\n";
    return all;
  };
  CHECK(texts(0).find("approved consent wording") != std::string::npos);
  CHECK(texts(1).find("texto de permiso aprobado") != std::string::npos);
}

TEST_CASE("A printed code is of a short plain text alone", "[case-297]") {
  const auto code = reports::qrCode("1043-0").value();
  CHECK(code.width == 21); // version 1
  CHECK(code.dark.size() == 441);
  // The three finder patterns of ISO/IEC 18004: a dark ring of 7 by 7.
  for (int i = 0; i < 7; ++i) {
    CHECK(code.isDark(i, 0));
    CHECK(code.isDark(code.width - 1 - i, 0));
    CHECK(code.isDark(0, code.width - 1 - i));
  }
  for (const std::string text : {"", "a name", "ñ", "123456789012345678901234567890123"})
    CHECK(reports::qrCode(text).error().code == ErrorCode::textMalformed);
}

TEST_CASE("Labels lie on their sheet, and none on another") {
  for (const auto& sheet : reports::labelSheets) {
    INFO(sheet.name);
    for (int place = 0; place < sheet.count(); ++place) {
      CHECK(sheet.x(place) >= 0);
      CHECK(sheet.y(place) >= 0);
      CHECK(sheet.x(place) + sheet.width <= sheet.sheetWidth + 0.5);
      CHECK(sheet.y(place) + sheet.height <= sheet.sheetHeight + 0.5);
    }
    CHECK(sheet.acrossStep >= sheet.width);
    CHECK(sheet.downStep >= sheet.height);
  }
}
