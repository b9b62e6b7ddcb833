#pragma once

#include "chairside/field.h"
#include "ui/asking/habits.h"

#include <QObject>

namespace gk::ui {

/// Who is at work and with what: carried from the morning until someone changes it.
struct Setup {
  std::optional<base::MemberId> author; ///< the operator
  std::optional<base::MemberId> assistant;
  std::optional<base::MemberId> recorder; ///< who types; empty when the author does
  std::optional<kit::LotId> sealant;
  std::optional<kit::LotId> etchant;
  std::optional<kit::LotId> varnish;
  std::optional<kit::LightId> light;
  chairside::Isolation isolation = chairside::Isolation::rollsWithHolders;
  chairside::Holder cheek = chairside::Holder::device;
  chairside::Holder tongue = chairside::Holder::device;
  bool fourHanded = true;                                        ///< where someone assists
  chairside::Cleaning cleaned = chairside::Cleaning::toothbrush; ///< before the etch
  bool operator==(const Setup&) const = default;
};

/// The setup that every page acts under, and this laptop's habits. Outlives the pages.
class Acting final : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;

  [[nodiscard]] const Setup& now() const { return setup_; }
  /// Says `changed` when something did.
  void change(const Setup& setup);
  /// Who acts; `station` where the act may be done at several places. Who is signed in types, and
  /// is the author of what no operator is named for.
  [[nodiscard]] base::By by(base::Station station = base::Station::unsaid) const;
  /// Who enters at the desk and on its pages: who was chosen there, else who types or works today.
  [[nodiscard]] std::optional<base::MemberId> entersAtDesk() const;
  [[nodiscard]] base::By byAtDesk(base::Station station) const;
  void enterAtDesk(const std::optional<base::MemberId>& who);
  /// Who gave her PIN, or chose her name among those who have one. None in a logbook without PINs:
  /// there the setup says who types.
  void signIn(const std::optional<base::MemberId>& who);
  [[nodiscard]] const std::optional<base::MemberId>& signedIn() const { return signedIn_; }
  [[nodiscard]] const Habits& habits() const { return habits_; }
  /// Says `habitsChanged` when something did.
  void keep(const Habits& habits);

 Q_SIGNALS:
  void changed();
  void habitsChanged();

 private:
  Setup setup_;
  Habits habits_;
  std::optional<base::MemberId> signedIn_;
  std::optional<base::MemberId> atDesk_;
  bool isChosenAtDesk_ = false; ///< also that it is no one
};

} // namespace gk::ui
