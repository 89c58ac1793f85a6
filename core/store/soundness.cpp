#include "core/store/soundness.h"

#include <QCoreApplication>

namespace washfast::store {

Result<QString> soundness(NotebookFile& file)
{
    const auto pages = file.integrity();
    if (!pages || *pages != QLatin1String("ok"))
        return pages;
    auto statement
        = file.connection().prepare("SELECT \"table\", rowid, parent FROM pragma_foreign_key_check LIMIT 20");
    if (!statement)
        return statement.error();
    QStringList loose;
    for (;;) {
        const auto row = statement->step();
        if (!row)
            return row.error();
        if (!*row)
            break;
        loose << QCoreApplication::translate("Store", "%1 %2 points at a %3 that does not exist")
                     .arg(statement->text(0), QString::number(statement->integer(1)), statement->text(2));
    }
    return loose.isEmpty() ? QStringLiteral("ok") : loose.join(QStringLiteral("; "));
}

} // namespace washfast::store
