// Codes for new prints and sessions, proposed from those that are there; sessions in the order in which they are
// offered.
#pragma once

#include "core/trial/notebook.h"

#include <QLocale>
#include <QStringList>
#include <QVector>

namespace washfast::ui {

/// A1-09 is the stem A1- and the number 9 in 2 digits; no digits when there is no number at the end.
struct CodeParts {
    QString stem;
    int number = 0;
    int digits = 0;
};
[[nodiscard]] CodeParts partsOf(const QString& code);
[[nodiscard]] QString numbered(const QString& stem, int number, int digits);

/// A1-09 -> A1-10, A1-99 -> A1-100; without a number at the end one is put behind it: A1 -> A1-01.
[[nodiscard]] QString codeAfter(const QString& code);
/// The first and those that follow it, without any that is in `taken` (in any case).
[[nodiscard]] QStringList codesFrom(const QString& first, int count, const QStringList& taken = {});
/// The first code that a session's next print takes: behind its highest one, or its own code and -01.
[[nodiscard]] QString nextPrintCode(const Notebook& notebook, SessionId session, const QVector<qint64>& prints);

/// Ids of the sessions, the latest start first; those without a start at the end.
[[nodiscard]] QVector<qint64> sessionsNewestFirst(const Notebook& notebook);
/// "A1 · 6/21/24 · 9B".
[[nodiscard]] QString sessionText(const Notebook& notebook, qint64 session, const QLocale& locale);
/// A code for the next session: the one after the latest when that ends in a number and is no date, else the day.
[[nodiscard]] QString nextSessionCode(const Notebook& notebook, const Instant& now);

} // namespace washfast::ui
