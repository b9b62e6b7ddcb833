#include "ui/mouth/tile_words.h"

#include "ui/support/text.h"

#include <algorithm>
#include <array>
#include <utility>

namespace gk::ui {

namespace {

/// None of them means two things on a tile: "partial" is of retention, "erupting" of eruption.
constexpr std::array<std::pair<const char*, const char*>, 12> shorter{
    {{"partially erupted", "erupting"},
     {"partially retained", "partial"},
     {"fully retained", "retained"},
     {"congenitally missing", "missing"},
     {"primary retained", "primary"},
     {"sealed elsewhere", "elsewhere"},
     {"sealed, origin unknown", "origin?"},
     {"cannot be seen", "not seen"},
     {"not assessable", "cannot tell"},
     {"non-cavitated", "lesion"},
     {"CONTAMINATED", "Contam."},
     {"GLASS IONOMER", "ionomer"}}};

} // namespace

QStringList waysToSay(const QString& word) {
  QStringList ways{word};
  // Small letters are narrower.
  if (!word.isEmpty() && word == word.toUpper()) ways += capital(word.toLower());
  const auto known = std::ranges::find_if(
      shorter, [&](const auto& one) { return word == QString::fromLatin1(one.first); });
  if (known != shorter.end()) ways += QString::fromLatin1(known->second);
  return ways;
}

QStringList waysToSayStrip(const QString& strip) {
  QStringList ways{strip};
  auto brief = strip;
  brief.remove(u"next: "_s).remove(u"ours, "_s);
  brief.replace(u"partially erupted"_s, u"erupting"_s);
  if (brief != strip) ways += brief;
  for (auto at = brief.lastIndexOf(u", "_s); at > 0; at = brief.lastIndexOf(u", "_s)) {
    brief.truncate(at);
    ways += brief;
  }
  return ways;
}

} // namespace gk::ui
