#include "chairside/placement.h"
#include "reports/calls/runners_list.h"
#include "reports/print/render.h"
#include "roster/consent/consent.h"

#include <catch2/catch.hpp>

#include <string_view>

using namespace gk;

namespace {

std::string lower(std::string text) {
  for (auto& sign : text)
    if (sign >= 'A' && sign <= 'Z') sign = static_cast<char>(sign - 'A' + 'a');
  return text;
}

bool isLetter(char sign) {
  return sign >= 'a' && sign <= 'z';
}

/// "no" is a word of its own and not the beginning of "november".
bool holdsWord(const std::string& paper, std::string_view word) {
  for (auto at = paper.find(word); at != std::string::npos; at = paper.find(word, at + 1)) {
    const auto end = at + word.size();
    const bool begins = at == 0 || !isLetter(paper[at - 1]);
    if (begins && (end == paper.size() || !isLetter(paper[end]))) return true;
  }
  return false;
}

template <class E>
void checkHoldsNone(const std::string& paper) {
  for (const auto name : base::enumNames<E>) {
    INFO(name);
    CHECK_FALSE(holdsWord(paper, name));
  }
}

reports::Table runnersSample() {
  return reports::runnersList("Cobble Lantern Elementary", base::Date::of(2026, 11, 17).value(),
                              {{"10", "Mina Tolliver-Reed"},
                               {"6", "Pia Lindenholt"},
                               {"6", "Lupe Saltmarsh"},
                               {"", "Osei"}});
}

} // namespace

TEST_CASE("The runner's list has names and rooms only", "[case-86]") {
  const auto table = runnersSample();
  REQUIRE(table.columns.size() == 2);
  CHECK(table.columns[0].heading == "Room");
  CHECK(table.columns[1].heading == "Name");
  const auto html = lower(reports::toHtml(table.title, std::vector{table}));
  const auto body = html.substr(html.find("<body>"));
  for (const auto& paper : {lower(reports::toText(std::vector{table})), body}) {
    for (const char* word : {"consent", "allerg", "health", "medic", "urgent", "sealant", "screen",
                             "tooth", "teeth", "dent", "refus", "recheck", "grade", "born"}) {
      INFO(word);
      CHECK(paper.find(word) == std::string::npos);
    }
    checkHoldsNone<roster::FlagKind>(paper);
    checkHoldsNone<roster::Service>(paper);
    checkHoldsNone<roster::ConsentState>(paper);
    checkHoldsNone<chairside::DayEnd>(paper);
  }
}

TEST_CASE("The runner's list goes room by room and room 10 comes after room 6", "[case-86]") {
  const auto table = runnersSample();
  const std::vector<std::vector<std::string>> rows{
      {"6", "Lupe Saltmarsh"}, {"6", "Pia Lindenholt"}, {"10", "Mina Tolliver-Reed"}, {"", "Osei"}};
  for (std::size_t i = 0; i < rows.size(); ++i)
    CHECK(textsOf(table.rows.at(i)) == rows[i]);
  CHECK(table.title == "Runner's list: Cobble Lantern Elementary, Tuesday, November 17, 2026");
}
