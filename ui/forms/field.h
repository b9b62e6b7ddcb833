#pragma once

#include "base/enum_names.h"
#include "base/time/date.h"
#include "reports/display_names.h"
#include "ui/support/text.h"

#include <QStringList>

#include <map>
#include <optional>
#include <vector>

namespace gk::ui {

enum class FieldKind {
  line,
  date,
  expiry, ///< a date, or year and month: the last day it is good
  dates,  ///< with commas between
  number,
  choice, ///< one of the options
  ticks,  ///< any of the options
  tick    ///< yes or no; the words stand beside it
};

/// One thing that a form of the desk asks.
struct Field {
  QString key; ///< "Baseline": what its value goes by, and the end of its widget's name
  QString words;
  QString hint{}; ///< a line below it: what it is for, or what is usual
  FieldKind kind = FieldKind::line;
  QStringList options{};
  std::vector<int> retired{}; ///< places of those that are offered no longer
  int least = 0;              ///< of a number
  int most = 0;
  bool isNeeded = false; ///< blank is not taken
  bool takesScan = false;
  QString gradeKey{}; ///< of a birth date: the field that tells which reading of it fits
  int span = 1;       ///< of the form's columns, or all of them where that is more
};

/// What a form says, by the keys of its fields: dates as 2026-11-17, a choice as its place, ticks
/// as bits. Read from a form they are sound.
class Values {
 public:
  void set(const QString& key, const QString& text) { texts_[key] = text; }
  void set(const QString& key, const std::string& text) { set(key, toQt(text)); }
  void set(const QString& key, const std::optional<base::Date>& date) {
    set(key, date ? toQt(date->iso()) : QString());
  }
  void set(const QString& key, std::int64_t number) { set(key, QString::number(number)); }
  template <class E>
  requires std::is_enum_v<E>
  void set(const QString& key, E value) { set(key, static_cast<std::int64_t>(value)); }

  [[nodiscard]] QString shown(const QString& key) const;
  /// Without the blanks around it.
  [[nodiscard]] std::string text(const QString& key) const;
  [[nodiscard]] std::optional<base::Date> date(const QString& key) const;
  [[nodiscard]] std::vector<base::Date> dates(const QString& key) const;
  /// None where it was left blank.
  [[nodiscard]] std::optional<int> number(const QString& key) const;
  [[nodiscard]] bool tick(const QString& key) const { return number(key).value_or(0) != 0; }
  template <class E>
  [[nodiscard]] E choice(const QString& key) const {
    return static_cast<E>(number(key).value_or(0));
  }
  template <class E>
  [[nodiscard]] base::EnumSet<E> ticks(const QString& key) const {
    return base::EnumSet<E>::fromBits(number(key).value_or(0)).value_or(base::EnumSet<E>());
  }

  bool operator==(const Values&) const = default;

 private:
  std::map<QString, QString> texts_;
};

/// As a person reads it: an option's words, a date's, "none" for what is blank.
QString shownValue(const Field& field, const Values& values);

/// The names of each, the first letter large.
template <class E>
QStringList optionsOf() {
  QStringList options;
  for (const auto name : base::displayNamesOf<E>())
    options += capital(toQt(name));
  return options;
}

} // namespace gk::ui
