#include "ui/asking/long_work.h"

#include "ui/support/text.h"

#include <QMetaObject>

#include <algorithm>
#include <chrono>

namespace gk::ui {

namespace {

using base::ErrorCode;
using base::Stage;

// Of the window's thread at a time, so that no key waits longer; and how often it is told on.
constexpr auto slice = std::chrono::milliseconds(5);
constexpr int pagesAtOnce = 16;
constexpr auto pulse = std::chrono::milliseconds(100);

QString wordsOf(Stage stage) {
  switch (stage) {
  case Stage::copying:
    return u"reading the logbook"_s;
  case Stage::checking:
    return u"checking"_s;
  case Stage::writing:
    return u"writing"_s;
  case Stage::verifying:
    return u"verifying the copy"_s;
  case Stage::reading:
    return u"reading"_s;
  case Stage::counting:
    return u"counting"_s;
  case Stage::drawing:
    return u"making pages"_s;
  case Stage::merging:
    return u"merging"_s;
  case Stage::updating:
    return u"updating"_s;
  }
  base::fail("a stage without words");
}

QString wordsOf(LongKind kind) {
  switch (kind) {
  case LongKind::totals:
    return u"Totals"_s;
  case LongKind::report:
    return u"Report"_s;
  case LongKind::letters:
    return u"Pages to print"_s;
  case LongKind::backUp:
    return u"Backup"_s;
  case LongKind::check:
    return u"Check"_s;
  case LongKind::merge:
    return u"Merge"_s;
  case LongKind::update:
    return u"Update of the logbook"_s;
  case LongKind::restore:
    return u"Restore"_s;
  case LongKind::erasing:
    return u"Erasing"_s;
  case LongKind::newKey:
    return u"New key of the names"_s;
  case LongKind::readList:
  case LongKind::lookAtList:
    return u"School's list"_s;
  }
  base::fail("long work without words");
}

base::Error canceled(LongKind kind) {
  return {ErrorCode::workCanceled, toStd(wordsOf(kind)) + " was canceled before its end"};
}

} // namespace

QString wordsOf(const LongState& state) {
  auto words = wordsOf(state.kind) + u": "_s + wordsOf(state.stage);
  if (state.whole > 0) words += u", %1%"_s.arg(state.done * 100 / state.whole);
  return words;
}

LongWork::LongWork(Where where, QObject* parent) : QObject(parent), where_(where) {
  pulse_.setInterval(pulse);
  connect(&pulse_, &QTimer::timeout, this, &LongWork::changed);
}

LongWork::~LongWork() {
  for (const auto& job : jobs_)
    job->stop.request_stop();
  pool_.waitForDone();
}

bool LongWork::admit(const JobPtr& job) {
  const auto why = takesBook(job->kind) && whyNot_ ? whyNot_() : QString();
  if (!why.isEmpty()) {
    job->fail({ErrorCode::ruleStep, toStd(why)});
    return false;
  }
  jobs_.push_back(job);
  pulse_.start();
  Q_EMIT changed();
  return true;
}

base::Progress LongWork::progressOf(const JobPtr& job) const {
  return {[job = std::weak_ptr(job), pause = pause_] {
            if (pause) pause();
            const auto alive = job.lock();
            return !alive || alive->stop.stop_requested();
          },
          [job = std::weak_ptr(job), pause = pause_](Stage stage, std::int64_t done,
                                                     std::int64_t whole) {
            if (pause) pause();
            const auto alive = job.lock();
            if (!alive) return;
            alive->stage = stage;
            alive->done = done;
            alive->whole = whole;
          }};
}

void LongWork::start(const JobPtr& job, const Body& body) {
  if (where_ == Where::here) return finish(job, body());
  pool_.start([this, job, body] {
    auto ending = std::make_shared<Ending>(body());
    job->draft.reset();
    session::wipeThisThread(); // it waits for other work, with its stack as it is
    QMetaObject::invokeMethod(
        this, [this, job, ending] { finish(job, *ending); }, Qt::QueuedConnection);
  });
}

void LongWork::copyThen(const JobPtr& job, const Body& body) {
  job->stage = Stage::copying;
  if (where_ == Where::here) {
    while (!job->isOver && job->copying == nullptr) {
      const auto all = job->draft->copy(pagesAtOnce);
      if (!all) return fail(job, all.error());
      if (*all) return start(job, body);
    }
    return;
  }
  job->copying = std::make_unique<QTimer>();
  connect(job->copying.get(), &QTimer::timeout, this, [this, job = std::weak_ptr(job), body] {
    if (const auto alive = job.lock()) copyOn(alive, body);
  });
  job->copying->start(0);
}

void LongWork::copyOn(const JobPtr& job, const Body& body) {
  const auto until = std::chrono::steady_clock::now() + slice;
  do {
    const auto all = job->draft->copy(pagesAtOnce);
    if (!all) return fail(job, all.error());
    if (*all) {
      // It is its own timeout that we are in; in a dialog's loop what is to be deleted lives on.
      job->copying->stop();
      job->copying.release()->deleteLater();
      return start(job, body);
    }
  } while (std::chrono::steady_clock::now() < until);
  job->done = job->draft->done();
  job->whole = job->draft->whole();
}

void LongWork::fail(const JobPtr& job, const base::Error& error) {
  finish(job, [job, error] { job->fail(error); });
}

void LongWork::finish(const JobPtr& job, const Ending& ending) {
  if (job->isOver) return;
  drop(job);
  ending();
}

void LongWork::drop(const JobPtr& job) {
  job->isOver = true;
  if (job->copying) {
    job->copying->stop();
    job->copying.release()->deleteLater();
    job->draft.reset();
  }
  std::erase(jobs_, job);
  if (jobs_.empty()) pulse_.stop();
  Q_EMIT changed();
}

void LongWork::cancel() {
  const auto all = jobs_; // ending one may begin another
  for (const auto& job : all) {
    job->stop.request_stop();
    if (takesBook(job->kind) || job->isOver) continue;
    fail(job, canceled(job->kind));
  }
}

std::optional<LongState> LongWork::state() const {
  if (jobs_.empty()) return std::nullopt;
  const auto& job = *jobs_.front();
  return LongState{job.kind, job.stage, job.done, job.whole};
}

bool LongWork::hasBook() const {
  return std::ranges::any_of(jobs_, [](const JobPtr& job) { return takesBook(job->kind); });
}

void LongWork::awaitBook() {
  if (hasBook()) pool_.waitForDone();
}

} // namespace gk::ui
