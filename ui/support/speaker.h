#pragma once

#include "ui/support/cues.h"

#include <QObject>
#include <QThread>

#include <functional>

namespace gk::ui {

/// Sounds the timer's cues. Where there is nothing to sound them on, the flash alone tells.
class Speaker : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;
  /// Returns at once; `volume` in percent, 0 plays nothing.
  virtual void play(Cue cue, int volume) = 0;

 Q_SIGNALS:
  /// Once: there is no audio device, or it stopped working.
  void silent();
};

/// Through the system's audio device, on a thread of its own: opening a device may take seconds
/// where a sound server hangs, and the window must never wait for it.
class DeviceSpeaker final : public Speaker {
  Q_OBJECT

 public:
  explicit DeviceSpeaker(QObject* parent = nullptr);
  ~DeviceSpeaker() override;

  void play(Cue cue, int volume) override;

 private:
  QThread thread_;
  QObject* voice_; ///< lives on the thread and goes with it
};

} // namespace gk::ui
