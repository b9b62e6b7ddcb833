#include "roster/consent/form_desk.h"

#include "forms.h"

#include <catch2/catch.hpp>

using namespace gk;
using namespace gk::roster;
using gk::roster::test::day;
using gk::roster::test::Forms;

namespace {

const auto deskDay = day(2026, 11, 17);

SchoolId schoolOf(std::uint8_t last) {
  base::Uuid id{};
  id.bytes[15] = last;
  return SchoolId(id);
}

FormOfChild childIn(SchoolId school, const char* room, ConsentState state) {
  return {ChildId(base::Uuid{}), school, room, state};
}

base::Recorded<FormHandout> handoutTo(SchoolId school, const char* room, int copies) {
  const base::Uuid id{};
  return {HandoutId(id),
          {base::EntryId(id), base::LaptopId(id), 1, {}, {}, {}, {}},
          {TermId(id), school, room, deskDay, copies}};
}

} // namespace

TEST_CASE("A signing date without its year is the latest that is not after the form came back",
          "[case-290]") {
  const auto read = [](const char* text) { return readSignedDate(text, deskDay); };
  CHECK(read("1117").value() == deskDay);
  CHECK(read("1118").value() == day(2025, 11, 18));
  CHECK(read("0905").value() == day(2026, 9, 5));
  CHECK(read("9/5").value() == day(2026, 9, 5));
  CHECK(read(" 9-5 ").value() == day(2026, 9, 5));
  CHECK(read("110326").value() == day(2026, 11, 3));
  CHECK(read("11032026").value() == day(2026, 11, 3));
  CHECK(read("11/3/26").value() == day(2026, 11, 3));
  CHECK(read("0229").value() == day(2024, 2, 29));
  for (const auto* text : {"", "1", "117", "11176", "1340", "0230", "11/", "a/b", "11/3/26/1",
                           "-1/3", "Nov 3", "99999999999999999999"}) {
    INFO(text);
    CHECK(read(text).error().code == base::ErrorCode::dateMalformed);
  }
}

TEST_CASE("A form that is valid from a later day of the term is back, not missing", "[case-292]") {
  Forms forms;
  auto form = forms.yes();
  form.validFrom = day(2026, 11, 30);
  const std::vector rows{forms.row(form)};
  CHECK(formState(rows, form.term, deskDay) == ConsentState::yes);
  CHECK(formState(rows, forms.otherTerm(), deskDay) == ConsentState::notReturned);
  CHECK(formState({}, form.term, deskDay) == ConsentState::notReturned);
  form.validFrom = day(2025, 9, 1);
  form.validUntil = day(2026, 6, 30);
  CHECK(formState(std::vector{forms.row(form)}, form.term, deskDay) == ConsentState::notReturned);
}

TEST_CASE("Forms are counted by room, in the order of schools, and nothing is counted twice",
          "[case-292]") {
  const auto first = schoolOf(2);
  const auto second = schoolOf(1);
  const std::vector children{childIn(first, "10", ConsentState::yes),
                             childIn(first, "9", ConsentState::no),
                             childIn(first, "9", ConsentState::notReturned),
                             childIn(second, "2", ConsentState::incomplete),
                             childIn(first, "9", ConsentState::yesWithLimits),
                             childIn(second, "2", ConsentState::withdrawn),
                             childIn(second, "2", ConsentState::onHold)};
  const std::vector handouts{handoutTo(first, "9", 20), handoutTo(first, "9", 4),
                             handoutTo(first, "11", 25), handoutTo(second, "2", 0)};
  const auto counts = countForms(children, handouts, std::vector{first, second});
  REQUIRE(counts.size() == 4);
  CHECK(counts[0].room == "9");
  CHECK(counts[1].room == "10");
  CHECK(counts[2].room == "11");
  CHECK(counts[3].school == second);
  CHECK(counts[0].children == 3);
  CHECK(counts[0].back() == 2);
  CHECK(counts[0].missing() == 1);
  CHECK(counts[0].handedOut == 24);
  CHECK_FALSE(counts[1].handedOut.has_value());
  CHECK(counts[2].children == 0);
  CHECK(counts[2].handedOut == 25);
  CHECK_FALSE(counts[3].handedOut.has_value()); // taken back
  CHECK(counts[3].back() == 3);
  FormCount all{first, ""};
  for (const auto& one : counts)
    all.add(one);
  CHECK(all.children == static_cast<int>(children.size()));
  CHECK(all.back() + all.missing() == all.children);
  CHECK(all.handedOut == 49);
}

TEST_CASE("Who answered is not chased; an incomplete form and one on hold are", "[case-292]") {
  CHECK(isToChase(ConsentState::notReturned));
  CHECK(isToChase(ConsentState::incomplete));
  CHECK(isToChase(ConsentState::onHold));
  for (auto state :
       {ConsentState::yes, ConsentState::yesWithLimits, ConsentState::no, ConsentState::withdrawn})
    CHECK_FALSE(isToChase(state));
}

TEST_CASE("A form that came back stays back when its student leaves; one that did not is chased no "
          "more",
          "[case-483]") {
  const auto school = schoolOf(1);
  auto back = childIn(school, "9", ConsentState::yes);
  back.hasLeft = true;
  auto never = childIn(school, "9", ConsentState::notReturned);
  never.hasLeft = true;
  const std::vector children{childIn(school, "9", ConsentState::no),
                             childIn(school, "9", ConsentState::notReturned), back, never};
  const std::vector handouts{handoutTo(school, "9", 4)};
  const auto counts = countForms(children, handouts, std::vector{school});
  REQUIRE(counts.size() == 1);
  CHECK(counts[0].handedOut == 4);
  CHECK(counts[0].back() == 2);
  CHECK(counts[0].left == 1);
  CHECK(counts[0].children == 2);
  CHECK(counts[0].yes == 0); // no one is expected on it
  CHECK(counts[0].missing() == 1);
  FormCount all{school, ""};
  all.add(counts[0]);
  all.add(counts[0]);
  CHECK(all.left == 2);
  CHECK(all.missing() == 2);
}
