#include "ui/forms/area.h"

#include "ui/asking/context.h"

#include <algorithm>

namespace gk::ui {

Field schoolField(Context& context, const QString& key, const QString& words) {
  Field field{.key = key, .words = words, .kind = FieldKind::choice};
  const auto all = context.session.schools();
  if (!all) return field;
  const auto offered = context.session.openSchools(context.clock.now().date());
  if (!offered) return field;
  for (const auto& school : *all) {
    if (std::ranges::find(*offered, school.id, &base::Recorded<roster::School>::id) ==
        offered->end())
      field.retired.push_back(static_cast<int>(field.options.size()));
    field.options += toQt(roster::shownAmong(school.value, *all));
  }
  return field;
}

std::function<Result<QStringList>(const Thing&)> changesSaid(session::Session& book,
                                                             session::Area area) {
  return [&book, area](const Thing& thing) -> Result<QStringList> {
    const auto sentences = book.changesWith(area, thing.value_or(base::Uuid{}));
    if (!sentences) return sentences.error();
    QStringList said;
    for (const auto& sentence : *sentences)
      said += toQt(sentence);
    return said;
  };
}

AreaForm removalForm(const QString& save, const QString& note,
                     std::function<Result<QString>(By, const Thing&, const std::string&)> act) {
  return {.name = u"Remove"_s,
          .words = u"Remove"_s,
          .key = Qt::Key_D,
          .asksReason = true,
          .save = save,
          .note = note,
          .changes = [](const Thing&) -> Result<QStringList> {
            return QStringList{
                u"It is no longer listed; its history stays. Enter it again if it is needed."_s};
          },
          .fields = [](const Thing&) { return std::vector<Field>(); },
          .values = [](const Thing&) -> Result<Values> { return Values(); },
          .act =
              [act = std::move(act)](By by, const Thing& id, const Values& values) {
                return act(by, id, values.text(reasonKey));
              }};
}

} // namespace gk::ui
