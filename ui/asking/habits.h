#pragma once

#include "base/time/date.h"
#include "ui/drafts/work_order.h"
#include "ui/look/look.h"
#include "ui/paper/paper.h"

#include <optional>
#include <string>

namespace gk::ui {

/// The side of the screen on which the keys and the timer of the chair stand.
enum class Side { left, right };

/// What a pedal sent when it was pressed once to be taught.
struct TaughtKey {
  int key = 0;           ///< Qt::Key; 0 when the keyboard's layout has no name for it
  unsigned scanCode = 0; ///< the key's place, for a key without a name
  bool operator==(const TaughtKey&) const = default;
};

/// Where this laptop's backups go by themselves, and the last good one.
struct BackupHabit {
  std::string folder{};  ///< empty until one is chosen
  std::string edition{}; ///< of the book that it has, as Session::edition
  std::optional<base::Date> on{};
  bool operator==(const BackupHabit&) const = default;
};

/// What is set for this laptop and for no other: how it is held, heard and read.
struct Habits {
  static constexpr int loudest = 100;

  std::optional<TaughtKey> pedal{}; ///< besides Space, which always works
  std::string scannerPrefix{};      ///< typed by the scanner before each code; may be empty
  int volume = 70;                  ///< 0 to loudest; 0 is the flash alone
  bool flash = true;                ///< the timer's sounds are also seen; always when silent
  Side strip = Side::right;
  WorkOrder order = WorkOrder::halves;
  Look look{};
  PaperSize paper = usualPaper(); ///< of letters, sheets and reports
  BackupHabit backup{};
  bool operator==(const Habits&) const = default;
};

} // namespace gk::ui

template <>
inline constexpr auto
    gk::base::enumNames<gk::ui::Side> = std::to_array<std::string_view>({"left", "right"});

template <>
inline constexpr auto
    gk::base::displayNames<gk::ui::Side> = std::to_array<std::string_view>({"left", "right"});
