#pragma once

#include "ui/asking/context.h"
#include "ui/drafts/chair_work.h"
#include "ui/keys/ask_bar.h"
#include "ui/models/chair_file.h"
#include "ui/mouth/mouth_map.h"
#include "ui/support/message.h"
#include "ui/widgets/message_strip.h"
#include "ui/widgets/timer_view.h"

#include <QObject>

namespace gk::ui {

/// How this child's teeth are kept dry. It begins as the day's setup and ends with the child: a
/// rubber dam for one is not everybody's.
struct Hold {
  chairside::Isolation isolation = chairside::Isolation::rollsWithHolders;
  chairside::Holder cheek = chairside::Holder::device;
  chairside::Holder tongue = chairside::Holder::device;
  bool fourHanded = true;
  bool operator==(const Hold&) const = default;
};

/// The child in the chair, as the panels share it: what the book says, and the widgets that all of
/// them speak through. After every act the file is read again; nothing shown comes from memory.
class ChairVisit final : public QObject {
  Q_OBJECT

 public:
  ChairVisit(Context& context, AskBar& ask, MessageStrip& strip, TimerView& timer, MouthMap& map,
             QObject* parent);

  /// False, and says why, when the child cannot be read.
  bool begin(roster::ChildId child, roster::DayId day);
  void end();
  [[nodiscard]] bool isOn() const { return file_.has_value(); }
  /// Precondition: on.
  [[nodiscard]] const ChairFile& file() const;
  [[nodiscard]] const Setup& setup() const { return context_.acting.now(); }
  /// Two-handed where no one assists.
  [[nodiscard]] Hold hold() const;
  void change(const Hold& hold);
  [[nodiscard]] base::By by() const { return context_.acting.by(base::Station::chair); }
  [[nodiscard]] session::Session& book() { return context_.session; }
  [[nodiscard]] dentition::Notation notation() const { return file().program.value.notation; }
  [[nodiscard]] base::Date date() const { return file().day.value.date; }
  /// Every tooth that has a field or a placement today.
  [[nodiscard]] std::vector<dentition::Tooth> begun() const;
  /// Teeth that were stopped today and not sealed since.
  [[nodiscard]] std::vector<dentition::Tooth> stopped() const;
  /// Whether those count as begun; a child who bolted may come back for them.
  void tryAgain(bool wanted) { tryingAgain_ = wanted; }
  /// Why the child was stopped, as it was said here last; empty when she was not.
  [[nodiscard]] const std::string& stoppedFor() const { return stoppedFor_; }
  void stoppedFor(const std::string& reason) { stoppedFor_ = reason; }

  /// Does a verb: its trouble goes to the strip and the entry stays; success reads the file again.
  template <class Verb>
  auto act(Verb verb) {
    const bool outer = ownAct_;
    ownAct_ = true;
    auto result = verb();
    ownAct_ = outer;
    if (!result)
      strip.post(describe(result.error()));
    else
      strip.settle();
    return result;
  }

  Context& context() { return context_; }

  AskBar& ask;
  MessageStrip& strip;
  TimerView& timer;
  MouthMap& map;

 Q_SIGNALS:
  void changed(); ///< the file was read again, or the setup is another

 private:
  void noteChange(const session::Change& change);
  [[nodiscard]] Hold usualHold() const;

  Context& context_;
  std::optional<ChairFile> file_;
  Hold hold_;
  bool ownAct_ = false;
  bool tryingAgain_ = false;
  std::string stoppedFor_;
  base::Subscription changes_;
};

} // namespace gk::ui
