#include "ui/files/kept_file.h"

#include "base/text/text.h"
#include "ui/support/text.h"

#include <algorithm>
#include <functional>
#include <map>

namespace gk::ui {

namespace {

constexpr auto settingsFile = "laptop-settings";

/// The lines of the file, `name=value`, each with its line number for a message.
class Lines {
 public:
  static std::optional<Lines> of(std::string_view text) {
    Lines lines;
    if (!base::isUtf8(text)) return std::nullopt;
    for (const auto line : base::split(text, '\n')) {
      if (base::trim(line).empty()) continue;
      const auto sign = line.find('=');
      if (sign == std::string_view::npos) return std::nullopt;
      lines.values_.insert_or_assign(std::string(base::trim(line.substr(0, sign))),
                                     std::string(line.substr(sign + 1)));
    }
    return lines;
  }

  /// Hands the value over, when there is one; a value that `take` refuses spoils the whole.
  void read(const std::string& name, const std::function<bool(const std::string&)>& take) {
    const auto found = values_.find(name);
    if (found != values_.end()) isGood_ = take(found->second) && isGood_;
  }
  void number(const std::string& name, int least, int most, int& into) {
    read(name, [&](const std::string& text) {
      const auto value = base::parseInt(base::trim(text));
      if (!value || *value < least || *value > most) return false;
      into = static_cast<int>(*value);
      return true;
    });
  }
  void truth(const std::string& name, bool& into) {
    read(name, [&](const std::string& text) {
      into = text == "yes";
      return text == "yes" || text == "no";
    });
  }
  template <class E>
  void word(const std::string& name, E& into) {
    read(name, [&](const std::string& text) {
      const auto value = base::fromName<E>(text);
      if (value) into = *value;
      return value.has_value();
    });
  }
  template <class Id>
  void id(const std::string& name, std::optional<Id>& into) {
    read(name, [&](const std::string& text) {
      const auto value = base::Uuid::parse(base::trim(text));
      if (value) into = Id(*value);
      return value.has_value();
    });
  }
  [[nodiscard]] bool isGood() const { return isGood_; }

 private:
  std::map<std::string, std::string> values_;
  bool isGood_ = true;
};

void readHabits(Lines& lines, Habits& habits) {
  TaughtKey pedal;
  int scanCode = 0;
  lines.number("pedal.key", 0, std::numeric_limits<int>::max(), pedal.key);
  lines.number("pedal.scan-code", 0, 0xffff, scanCode);
  pedal.scanCode = static_cast<unsigned>(scanCode);
  if (pedal != TaughtKey{}) habits.pedal = pedal;
  lines.read("scanner.prefix", [&](const std::string& text) {
    habits.scannerPrefix = text;
    return text.size() <= 8;
  });
  lines.number("sound.volume", 0, Habits::loudest, habits.volume);
  lines.truth("sound.flash", habits.flash);
  lines.word("chair.strip", habits.strip);
  lines.word("chair.order", habits.order);
  lines.word("look.colors", habits.look.scheme);
  lines.number("look.text-percent", 100, 200, habits.look.percent);
  lines.word("print.paper", habits.paper);
  lines.read("backup.folder", [&](const std::string& text) {
    habits.backup.folder = text;
    return true;
  });
  lines.read("backup.last", [&](const std::string& text) {
    habits.backup.edition = text;
    return true;
  });
  lines.read("backup.on", [&](const std::string& text) {
    const auto date = base::Date::parse(text);
    if (date) habits.backup.on = *date;
    return date.has_value();
  });
}

void readSetup(Lines& lines, Kept& kept) {
  lines.read("today.date", [&](const std::string& text) {
    const auto date = base::Date::parse(text);
    if (date) kept.on = *date;
    return date.has_value();
  });
  auto& setup = kept.setup;
  lines.id("today.operator", setup.author);
  lines.id("today.assistant", setup.assistant);
  lines.id("today.recorder", setup.recorder);
  lines.id("today.sealant", setup.sealant);
  lines.id("today.etchant", setup.etchant);
  lines.id("today.varnish", setup.varnish);
  lines.id("today.light", setup.light);
  lines.word("today.isolation", setup.isolation);
  lines.word("today.cheek", setup.cheek);
  lines.word("today.tongue", setup.tongue);
  lines.truth("today.four-handed", setup.fourHanded);
  lines.word("today.cleaned", setup.cleaned);
}

} // namespace

ReadKept readKept(const base::Path& folder) {
  const auto path = folder / settingsFile;
  const auto text = base::readFile(path);
  if (!text) {
    if (text.error().code == base::ErrorCode::fileNotFound) return {};
    return {{},
            u"This laptop's settings cannot be read: "_s + toQt(text.error().detail) +
                u". Default settings are used; the logbook is not affected."_s};
  }
  auto lines = Lines::of(*text);
  ReadKept read;
  if (lines) {
    readHabits(*lines, read.kept.habits);
    readSetup(*lines, read.kept);
  }
  if (lines && lines->isGood()) return read;
  const auto aside = base::replaceFile(folder / (std::string(settingsFile) + ".damaged"), *text);
  return {{},
          u"This laptop's settings were damaged, so default settings are used"_s +
              (aside ? u"; the old file is kept as laptop-settings.damaged"_s : QString()) +
              u". The logbook is not affected. Set up the pedal and the rest again: F10."_s};
}

base::Result<base::Done> writeKept(const base::Path& folder, const Kept& kept) {
  const auto& habits = kept.habits;
  const auto& setup = kept.setup;
  std::string text;
  const auto line = [&](std::string_view name, std::string_view value) {
    text += std::string(name) + "=" + std::string(value) + "\n";
  };
  const auto id = [&](std::string_view name, const auto& value) {
    if (value) line(name, value->uuid().text());
  };
  const auto truth = [](bool value) { return value ? "yes" : "no"; };
  if (habits.pedal) {
    line("pedal.key", std::to_string(habits.pedal->key));
    line("pedal.scan-code", std::to_string(habits.pedal->scanCode));
  }
  line("scanner.prefix", habits.scannerPrefix);
  line("sound.volume", std::to_string(habits.volume));
  line("sound.flash", truth(habits.flash));
  line("chair.strip", base::nameOf(habits.strip));
  line("chair.order", base::nameOf(habits.order));
  line("look.colors", std::string(base::nameOf(habits.look.scheme)));
  line("look.text-percent", std::to_string(habits.look.percent));
  line("print.paper", base::nameOf(habits.paper));
  // A folder's name may hold whatever the system lets it; a line cannot.
  const auto& backup = habits.backup;
  if (!backup.folder.empty() && backup.folder.find('\n') == std::string::npos)
    line("backup.folder", backup.folder);
  if (backup.on) {
    line("backup.last", backup.edition);
    line("backup.on", backup.on->iso());
  }
  if (kept.on) {
    line("today.date", kept.on->iso());
    id("today.operator", setup.author);
    id("today.assistant", setup.assistant);
    id("today.recorder", setup.recorder);
    id("today.sealant", setup.sealant);
    id("today.etchant", setup.etchant);
    id("today.varnish", setup.varnish);
    id("today.light", setup.light);
    line("today.isolation", base::nameOf(setup.isolation));
    line("today.cheek", base::nameOf(setup.cheek));
    line("today.tongue", base::nameOf(setup.tongue));
    line("today.four-handed", truth(setup.fourHanded));
    line("today.cleaned", base::nameOf(setup.cleaned));
  }
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  return base::replaceFile(folder / settingsFile, text);
}

Setup stillUsable(Setup setup, session::Reader& book, base::Date on) {
  const auto keep = [](auto& id, const auto& rows, const auto& fits) {
    const auto known = rows && std::ranges::any_of(*rows, [&](const auto& row) {
                         return id == row.id && fits(row.value);
                       });
    if (!known) id.reset();
  };
  const auto members = book.members();
  keep(setup.author, members, [&](const roster::Member& member) {
    return !member.licenseUntil || *member.licenseUntil >= on;
  });
  for (auto* id : {&setup.assistant, &setup.recorder})
    keep(*id, members, [](const roster::Member&) { return true; });
  const auto lots = book.lots();
  for (auto* id : {&setup.sealant, &setup.etchant, &setup.varnish})
    keep(*id, lots, [&](const kit::Lot& lot) { return kit::checkUsable(lot, on).has_value(); });
  keep(setup.light, book.lights(), [](const kit::Light& light) { return light.inService; });
  return setup;
}

} // namespace gk::ui
