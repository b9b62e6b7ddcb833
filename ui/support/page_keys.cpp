#include "ui/support/page_keys.h"

#include <QStringList>
#include <QVariant>
#include <QWidget>

namespace gk::ui {

namespace {

constexpr const char* toldKeys = "gkKeys";

} // namespace

void tellKeys(QWidget& widget, const ToldKeys& keys) {
  QStringList flat;
  for (const auto& [key, words] : keys)
    flat << key << words;
  widget.setProperty(toldKeys, flat);
}

ToldKeys keysTold(const QWidget& widget) {
  const auto flat = widget.property(toldKeys).toStringList();
  ToldKeys keys;
  for (qsizetype i = 0; i + 1 < flat.size(); i += 2)
    keys.emplace_back(flat[i], flat[i + 1]);
  return keys;
}

} // namespace gk::ui
