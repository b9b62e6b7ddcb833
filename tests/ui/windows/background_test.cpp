#include "ui/support/background.h"

#include <QTest>

#include <catch2/catch.hpp>

using gk::ui::inBackground;

TEST_CASE("Every answer from the background reaches its owner once") {
  QObject owner;
  int sum = 0;
  constexpr int rounds = 500;
  for (int i = 1; i <= rounds; ++i)
    inBackground(
        &owner, [i] { return i; }, [&sum](int value) { sum += value; });
  CHECK(QTest::qWaitFor([&] { return sum == rounds * (rounds + 1) / 2; }));
}

TEST_CASE("An answer whose owner is gone reaches no one") {
  bool reached = false;
  bool after = false;
  {
    QObject owner;
    inBackground(
        &owner, [] { return 1; }, [&reached](int) { reached = true; });
  }
  QObject other;
  QThreadPool::globalInstance()->waitForDone();
  inBackground(
      &other, [] { return 1; }, [&after](int) { after = true; });
  CHECK(QTest::qWaitFor([&] { return after; }));
  CHECK_FALSE(reached);
}
