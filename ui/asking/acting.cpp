#include "ui/asking/acting.h"

namespace gk::ui {

void Acting::change(const Setup& setup) {
  if (setup == setup_) return;
  setup_ = setup;
  Q_EMIT changed();
}

base::By Acting::by(base::Station station) const {
  if (!signedIn_) return {setup_.author, setup_.recorder, station};
  const auto author = setup_.author.value_or(*signedIn_);
  return {author, author == *signedIn_ ? std::nullopt : signedIn_, station};
}

std::optional<base::MemberId> Acting::entersAtDesk() const {
  if (isChosenAtDesk_) return atDesk_;
  return signedIn_ ? signedIn_ : setup_.recorder ? setup_.recorder : setup_.author;
}

base::By Acting::byAtDesk(base::Station station) const {
  const auto author = entersAtDesk();
  return {author, author && signedIn_ != author ? signedIn_ : std::nullopt, station};
}

void Acting::enterAtDesk(const std::optional<base::MemberId>& who) {
  atDesk_ = who;
  isChosenAtDesk_ = true;
}

void Acting::signIn(const std::optional<base::MemberId>& who) {
  if (who == signedIn_) return;
  signedIn_ = who;
  Q_EMIT changed();
}

void Acting::keep(const Habits& habits) {
  if (habits == habits_) return;
  habits_ = habits;
  Q_EMIT habitsChanged();
}

} // namespace gk::ui
