#pragma once

#include "base/enum_names.h"
#include "session/book/snapshot.h"
#include "session/session.h"

#include <QObject>
#include <QPointer>
#include <QString>
#include <QThreadPool>
#include <QTimer>

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <type_traits>
#include <vector>

namespace gk::ui {

/// Work that takes longer the more there is in a logbook; a new key, for its several passphrases.
enum class LongKind : std::uint8_t {
  totals,
  report,
  letters,
  backUp,
  check,
  merge,
  update,
  restore,
  erasing,
  newKey,
  readList,
  lookAtList
};

/// Whether it has the logbook to itself meanwhile; the others read a snapshot, or no logbook.
constexpr bool takesBook(LongKind kind) {
  return kind == LongKind::merge || kind == LongKind::update || kind == LongKind::restore ||
         kind == LongKind::erasing || kind == LongKind::newKey || kind == LongKind::lookAtList;
}

/// How far the work is that began first.
struct LongState {
  LongKind kind;
  base::Stage stage;
  std::int64_t done;
  std::int64_t whole; ///< 0 when no one knows
};

/// "Backup: checking, 40%".
QString wordsOf(const LongState& state);

/// Runs long work away from the window, which goes on meanwhile, and hands what it gives back in
/// the window's thread; when the owner is gone by then, to no one. Work fails as the core says;
/// work that was canceled gives `workCanceled`, and has changed nothing. What only reads is given
/// up at once; what changes the book is waited for: less than a second, unless it is done and only
/// the file of an erasure is still rewritten, which nothing stops.
class LongWork final : public QObject {
  Q_OBJECT

 public:
  /// `here` does it at once, in the caller's thread, for a page without a window.
  enum class Where { aside, here };

  explicit LongWork(Where where = Where::aside, QObject* parent = nullptr);
  /// Cancels all and waits.
  ~LongWork() override;

  /// `work(progress)` gives a base::Result and touches nothing that the window may; `then` is
  /// handed it.
  template <class Work, class Then>
  void run(LongKind kind, QObject* owner, Work work, Then then) {
    using Value = std::invoke_result_t<Work, const base::Progress&>;
    const auto job = begin<Value>(kind, owner, std::move(then));
    if (job) start(job->job, bodyOf<Value>(*job, std::make_shared<Work>(std::move(work))));
  }

  /// As `run`, for what changes `book`: whoever listens to it hears of that back in this thread.
  template <class Work, class Then>
  void runOnBook(LongKind kind, QObject* owner, session::Session& book, Work work, Then then) {
    using Value = std::invoke_result_t<Work, const base::Progress&>;
    book.holdNews();
    run(kind, owner, std::move(work), [&book, then = std::move(then)](Value value) mutable {
      book.tellNews();
      then(std::move(value));
    });
  }

  /// `work(snapshot, progress)`, on the book as it is once it is copied. Only the copying is done
  /// in the window's thread, a few milliseconds at a time.
  template <class Work, class Then>
  void runOnCopy(LongKind kind, QObject* owner, session::Session& book, Work work, Then then) {
    using Value = std::invoke_result_t<Work, session::Snapshot&, const base::Progress&>;
    const auto begun = begin<Value>(kind, owner, std::move(then));
    if (!begun) return;
    auto draft = book.snapshot();
    if (!draft) return fail(begun->job, draft.error());
    begun->job->draft = std::move(*draft);
    const auto kept = std::make_shared<Work>(std::move(work));
    const auto onCopy = [job = begun->job.get(), kept](const base::Progress& progress) -> Value {
      auto snapshot = job->draft->finish();
      if (!snapshot) return snapshot.error();
      snapshot->watch(progress);
      return (*kept)(*snapshot, progress);
    };
    using OnCopy = std::remove_const_t<decltype(onCopy)>;
    copyThen(begun->job, bodyOf<Value>(*begun, std::make_shared<OnCopy>(onCopy)));
  }

  /// All of it. What comes of it is `workCanceled`.
  void cancel();
  [[nodiscard]] std::optional<LongState> state() const;
  [[nodiscard]] bool isBusy() const { return !jobs_.empty(); }
  /// Nothing may be asked of the open book while this is so.
  [[nodiscard]] bool hasBook() const;
  /// Waits until it is not.
  void awaitBook();
  /// Why work that takes the book cannot begin now; empty when it can.
  void askBefore(std::function<QString()> whyNot) { whyNot_ = std::move(whyNot); }
  /// Called in the work's thread whenever the core asks or tells: a test slows the core with it.
  void pauseWith(std::function<void()> pause) { pause_ = std::move(pause); }

 Q_SIGNALS:
  /// Began, went on or ended.
  void changed();

 private:
  /// What is done back in the window's thread.
  using Ending = std::function<void()>;
  using Body = std::function<Ending()>;

  struct Job {
    explicit Job(LongKind what) : kind(what) {}
    LongKind kind;
    std::stop_source stop{};
    std::atomic<base::Stage> stage{base::Stage::reading};
    std::atomic<std::int64_t> done{0};
    std::atomic<std::int64_t> whole{0};
    std::function<void(const base::Error&)> fail{};
    std::unique_ptr<session::SnapshotDraft> draft{};
    std::unique_ptr<QTimer> copying{};
    bool isOver = false; ///< in the window's eyes
  };
  using JobPtr = std::shared_ptr<Job>;

  template <class Value>
  struct Begun {
    JobPtr job;
    std::function<void(Value)> then;
  };

  template <class Value, class Then>
  std::optional<Begun<Value>> begin(LongKind kind, QObject* owner, Then then) {
    const auto kept = std::make_shared<Then>(std::move(then));
    Begun<Value> begun{std::make_shared<Job>(kind),
                       [guard = QPointer<QObject>(owner), kept](Value value) {
                         if (guard) (*kept)(std::move(value));
                       }};
    begun.job->fail = [then = begun.then](const base::Error& error) { then(Value(error)); };
    if (!admit(begun.job)) return std::nullopt;
    return begun;
  }

  template <class Value, class Work>
  Body bodyOf(const Begun<Value>& begun, std::shared_ptr<Work> work) {
    return [work, then = begun.then, progress = progressOf(begun.job)]() -> Ending {
      const auto value = std::make_shared<Value>((*work)(progress));
      return [value, then] { then(std::move(*value)); };
    };
  }

  bool admit(const JobPtr& job);
  [[nodiscard]] base::Progress progressOf(const JobPtr& job) const;
  void start(const JobPtr& job, const Body& body);
  void copyThen(const JobPtr& job, const Body& body);
  void copyOn(const JobPtr& job, const Body& body);
  void fail(const JobPtr& job, const base::Error& error);
  void finish(const JobPtr& job, const Ending& ending);
  void drop(const JobPtr& job);

  Where where_;
  QTimer pulse_;
  std::vector<JobPtr> jobs_;
  std::function<QString()> whyNot_;
  std::function<void()> pause_;
  QThreadPool pool_; // goes first, and waits for its threads
};

} // namespace gk::ui

template <>
inline constexpr auto gk::base::enumNames<gk::ui::LongKind> = std::to_array<std::string_view>(
    {"totals", "report", "letters", "backup", "check", "merge", "update", "restore", "erasing",
     "new key", "read list", "look at list"});
