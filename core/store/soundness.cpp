#include "core/store/soundness.h"

#include "core/store/rows.h"
#include "core/store/words.h"

namespace washfast::store {

Result<QString> soundness(NotebookFile& file)
{
    const auto pages = file.integrity();
    if (!pages || *pages != QLatin1String("ok"))
        return pages;
    QStringList loose;
    auto done
        = eachRow(file.connection().prepare("SELECT \"table\", rowid, parent FROM pragma_foreign_key_check LIMIT 20"),
            [&](const Statement& row) {
                loose << Words::tr("%1 %2 points at a %3 that does not exist")
                             .arg(row.text(0), QString::number(row.integer(1)), row.text(2));
            });
    if (!done)
        return done.error();
    return loose.isEmpty() ? QStringLiteral("ok") : loose.join(QStringLiteral("; "));
}

} // namespace washfast::store
