// Installs the texts of a language: ours, and the toolkit's own (buttons, file dialogs) in the same language. English
// too has a file: it holds the plurals.
#pragma once

#include <QLocale>

class QObject;

namespace washfast {

/// The first of the person's languages that is in the folder, else English. Before any text is asked for. They go with
/// their owner, as a rule the application.
void installTranslations(
    QObject& owner, const QLocale& locale = QLocale(), const QString& folder = QStringLiteral(":/i18n"));

} // namespace washfast
