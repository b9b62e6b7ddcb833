#include "ui/desk/desk_page.h"
#include "ui/fixtures/desk_fixture.h"
#include "ui/forms/area_page.h"

#include <QListWidget>
#include <QTableView>

#include <algorithm>
#include <map>
#include <set>

using namespace gk;
using namespace gk::test;

namespace {

/// What an area does without, and why.
struct Without {
  QString what;
  const char* why;
};

const std::multimap<QString, Without>& areasWithout() {
  static const std::multimap<QString, Without> all{
      {u"Program"_s, {u"add"_s, "a logbook is one program's"}},
      {u"Program"_s, {u"retire"_s, "a logbook is one program's"}},
      {u"Students"_s, {u"retire"_s, "a student leaves by a roster, an erasure or a join"}},
      {u"Letters"_s, {u"correct"_s, "a file beside the logbook, replaced whole"}},
      {u"Laptop"_s, {u"add"_s, "laptops add themselves"}},
      {u"Laptop"_s, {u"correct"_s, "nothing of a laptop is typed"}},
      {u"Laptop"_s, {u"retire"_s, "what a laptop wrote stays"}}};
  return all;
}

bool isWithout(const QString& area, const QString& what) {
  const auto [first, last] = areasWithout().equal_range(area);
  return std::any_of(first, last, [&](const auto& one) { return one.second.what == what; });
}

const ui::AreaForm* formNamed(const ui::AreaSpec& spec, const std::set<QString>& names) {
  for (const auto& form : spec.forms)
    if (names.contains(form.name)) return &form;
  return nullptr;
}

} // namespace

TEST_CASE("Every area of the desk adds, corrects with a reason and its history, retires, and says "
          "what a correction changes",
          "[case-202][case-288]") {
  Desk desk;
  desk.clinic.child("Mina");
  must(desk.clinic.session.enterYear(desk.clinic.by, {"2026-27", roster::YearKind::school,
                                                      must(base::Date::parse("2026-07-01")),
                                                      must(base::Date::parse("2027-06-30"))}));
  ui::DeskPage page{desk.context, nullptr};
  desk.listen(page);
  showActive(page);
  const auto pages = page.findChildren<ui::AreaPage*>();
  CHECK(pages.size() >= 10);
  for (auto* area : pages) {
    const auto& spec = area->spec();
    INFO(spec.name.toStdString());
    CHECK((isWithout(spec.name, u"add"_s) || formNamed(spec, {u"Add"_s, u"Replace"_s})));
    CHECK((isWithout(spec.name, u"retire"_s) ||
           formNamed(spec, {u"Remove"_s, u"End"_s, u"Out"_s, u"Aside"_s, u"Back"_s})));
    const auto* correct = formNamed(spec, {u"Correct"_s});
    REQUIRE((correct || isWithout(spec.name, u"correct"_s)));
    std::set<int> keys;
    for (const auto& form : spec.forms) {
      INFO(form.name.toStdString());
      CHECK(keys.insert(form.key).second); // one key, one act
      CHECK_FALSE(form.save.isEmpty());
    }
    if (!correct) continue;
    CHECK(correct->asksReason);
    const auto rows = must(spec.rows(spec.search.isEmpty() ? QString() : u"mina"_s));
    REQUIRE_FALSE(rows.empty());
    CHECK_FALSE(must(spec.history(rows.front().id)).empty());
    REQUIRE(correct->changes);
    const auto changes = must(correct->changes(rows.front().id));
    REQUIRE_FALSE(changes.isEmpty());
    for (const auto& sentence : changes)
      CHECK(sentence.endsWith(u'.'));
    // What it changes stands above the form before anything is typed.
    if (!spec.search.isEmpty())
      part<QLineEdit>(page, u"desk"_s + spec.name + u"Search"_s).setText(u"mina"_s);
    area->begin(u"Correct"_s);
    CHECK(words(page, u"desk"_s + spec.name + u"Note"_s)
              .contains(u"What this changes: "_s + changes.front()));
  }
  CHECK(desk.troubles.isEmpty());
}
