#include "ui/support/speaker.h"

#include <QAudioDevice>
#include <QAudioSink>
#include <QBuffer>
#include <QMediaDevices>

#include <memory>

namespace gk::ui {

namespace {

constexpr int rate = 44100;

/// The device and what it is playing; only ever used on its own thread.
class Voice final : public QObject {
 public:
  explicit Voice(std::function<void()> onSilent) : onSilent_(std::move(onSilent)) {}

  void play(Cue cue, int volume) {
    if (isSilent_ || !open()) return;
    sink_->stop();
    const auto pcm = samples(cue, volume, rate);
    buffer_.close();
    buffer_.setData(reinterpret_cast<const char*>(pcm.data()),
                    static_cast<int>(pcm.size() * sizeof(std::int16_t)));
    buffer_.open(QIODevice::ReadOnly);
    sink_->start(&buffer_);
    if (sink_->error() != QAudio::NoError && sink_->error() != QAudio::UnderrunError) fallSilent();
  }

 private:
  bool open() {
    if (sink_) return true;
    QAudioFormat format;
    format.setSampleRate(rate);
    format.setChannelCount(1);
    format.setSampleFormat(QAudioFormat::Int16);
    const auto device = QMediaDevices::defaultAudioOutput();
    if (device.isNull() || !device.isFormatSupported(format)) {
      fallSilent();
      return false;
    }
    sink_ = std::make_unique<QAudioSink>(device, format);
    return true;
  }

  void fallSilent() {
    isSilent_ = true;
    sink_.reset();
    onSilent_();
  }

  std::function<void()> onSilent_;
  QBuffer buffer_{this};
  std::unique_ptr<QAudioSink> sink_;
  bool isSilent_ = false;
};

} // namespace

DeviceSpeaker::DeviceSpeaker(QObject* parent)
    : Speaker(parent), voice_(new Voice([this] { Q_EMIT silent(); })) {
  voice_->moveToThread(&thread_);
  connect(&thread_, &QThread::finished, voice_, &QObject::deleteLater);
  thread_.start();
}

DeviceSpeaker::~DeviceSpeaker() {
  thread_.quit();
  thread_.wait();
}

void DeviceSpeaker::play(Cue cue, int volume) {
  if (volume <= 0) return;
  auto* voice = static_cast<Voice*>(voice_);
  QMetaObject::invokeMethod(
      voice, [voice, cue, volume] { voice->play(cue, volume); }, Qt::QueuedConnection);
}

} // namespace gk::ui
