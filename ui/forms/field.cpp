#include "ui/forms/field.h"

namespace gk::ui {

QString Values::shown(const QString& key) const {
  const auto found = texts_.find(key);
  return found == texts_.end() ? QString() : found->second;
}

std::string Values::text(const QString& key) const {
  return toStd(shown(key).trimmed());
}

std::optional<base::Date> Values::date(const QString& key) const {
  const auto date = base::Date::parse(text(key));
  return date ? std::optional(*date) : std::nullopt;
}

std::vector<base::Date> Values::dates(const QString& key) const {
  std::vector<base::Date> dates;
  const auto all = text(key);
  for (const auto one : base::split(all, ','))
    if (const auto date = base::Date::parse(base::trim(one))) dates.push_back(*date);
  return dates;
}

std::optional<int> Values::number(const QString& key) const {
  bool isNumber = false;
  const auto number = shown(key).trimmed().toInt(&isNumber);
  return isNumber ? std::optional(number) : std::nullopt;
}

QString shownValue(const Field& field, const Values& values) {
  const auto text = values.shown(field.key).trimmed();
  switch (field.kind) {
  case FieldKind::choice:
    return field.options.value(values.number(field.key).value_or(0), u"none"_s);
  case FieldKind::tick:
    return values.tick(field.key) ? u"yes"_s : u"no"_s;
  case FieldKind::ticks: {
    QStringList chosen;
    const auto bits = values.number(field.key).value_or(0);
    for (int i = 0; i < field.options.size(); ++i)
      if (bits & (1 << i)) chosen += field.options[i];
    return chosen.isEmpty() ? u"none"_s : chosen.join(u", "_s);
  }
  case FieldKind::date:
  case FieldKind::expiry: {
    const auto date = values.date(field.key);
    return date ? toQt(date->words()) : u"none"_s;
  }
  case FieldKind::dates:
    return text.isEmpty() ? u"none"_s : toQt(base::datesToRead(toStd(text)));
  case FieldKind::line:
  case FieldKind::number:
    break;
  }
  return text.isEmpty() ? u"none"_s : text;
}

} // namespace gk::ui
