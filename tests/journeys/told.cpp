#include "journeys/told.h"

#include "support/built_demo.h"

#include <algorithm>

namespace gk::test {

Told::Told(demo::Until until) {
  copyDemo(folder(), until);
  const base::LaptopId reader(base::makeUuid7(clock_.now().at, random_));
  book_.emplace(must(session::Session::open(folder() / "demo.gkbook", reader, {clock_, random_},
                                            store::Access::readOnly)));
  must(book_->unlock(demo::passphrase));
}

reports::TermRecords Told::term(std::size_t place) {
  const auto terms = must(book_->terms());
  const auto& term = terms.at(place);
  const auto lastDay = *base::Date::parse("2026-11-17");
  return must(book_->termRecords(term.id, std::min(term.value.end, lastDay)));
}

reports::DayRecords Told::lastDay() {
  const auto days = must(book_->days(must(book_->terms()).back().id));
  const auto last =
      std::ranges::max_element(days, {}, [](const auto& day) { return day.value.date; });
  return must(book_->dayRecords(last->id));
}

roster::ChildId Told::child(const std::string& digits) {
  const auto found = must(book_->findChildren(digits));
  REQUIRE(found.size() == 1);
  return found.front().child;
}

} // namespace gk::test
