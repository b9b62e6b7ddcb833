#include "ui/fixtures/desk_fixture.h"
#include "ui/models/table_model.h"

#include <QAbstractItemModelTester>

using namespace gk;
using namespace gk::test;

TEST_CASE("A report on the screen has its cells as they are") {
  ui::TableModel model;
  const QAbstractItemModelTester tester(&model);
  model.show({"Title",
              {{"School"}, {"% of enrolled", reports::Kind::share}},
              {{"Elderbrook Middle", "44.3"}},
              {}});
  CHECK(model.rowCount() == 1);
  CHECK(model.data(model.index(0, 1), Qt::DisplayRole) == u"44.3"_s);
  CHECK(model.headerData(1, Qt::Horizontal, Qt::DisplayRole) == u"% of\nenrolled"_s);
}
