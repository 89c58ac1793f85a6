#include "app/cli/output.h"

#include "app/cli/words.h"

#include <QJsonDocument>
#include <algorithm>
#include <cerrno>
#include <cstdio>

namespace washfast::cli {

void Output::put(const QByteArray& bytes) const
{
    if (std::fwrite(bytes.constData(), 1, size_t(bytes.size()), stdout) != size_t(bytes.size()) && trouble_ == 0)
        trouble_ = errno;
}

void Output::line(const QString& text) const
{
    put(text.toUtf8() + '\n');
}

void Output::file(const QByteArray& bytes) const
{
    put(bytes);
}

void Output::say(const QString& text) const
{
    if (std::fflush(stdout) != 0 && trouble_ == 0)
        trouble_ = errno;
    const QByteArray bytes = text.toUtf8() + '\n';
    std::fwrite(bytes.constData(), 1, size_t(bytes.size()), stderr);
}

int Output::finish(int status) const
{
    if (std::fflush(stdout) != 0 && trouble_ == 0)
        trouble_ = errno;
    if (trouble_ == 0 || status != done)
        return status;
    const QString why = qt_error_string(trouble_);
    return fail({ Trouble::Failed,
        wrote_files_
            ? Words::tr("The work was done, but its answer could not be written to standard output: %1.").arg(why)
            : Words::tr("The answer could not be written to standard output: %1.").arg(why),
        {} });
}

void Output::json(const QJsonObject& object) const
{
    line(QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Indented)).trimmed());
}

void Output::table(const QStringList& headings, const std::vector<QStringList>& rows) const
{
    std::vector<qsizetype> widths;
    for (const auto& heading : headings)
        widths.push_back(heading.size());
    for (const auto& row : rows)
        for (qsizetype i = 0; i < row.size() && i < headings.size(); ++i)
            widths[size_t(i)] = std::max(widths[size_t(i)], row[i].size());
    const auto print = [&](const QStringList& cells) {
        QString text;
        for (qsizetype i = 0; i < cells.size(); ++i)
            text += QString(cells[i]).replace(QLatin1Char('\n'), QLatin1Char(' ')).leftJustified(widths[size_t(i)] + 2);
        line(text.trimmed().isEmpty() ? QString() : text.left(text.size() - 2));
    };
    print(headings);
    QStringList rules;
    for (const auto width : widths)
        rules << QString(width, QLatin1Char('-'));
    print(rules);
    for (const auto& row : rows)
        print(row);
}

int Output::fail(const Error& error) const
{
    say(QStringLiteral("washfast: ") + error.sentence());
    return failed;
}

int Output::misuse(const QString& says) const
{
    say(QStringLiteral("washfast: ") + says);
    return misused;
}

} // namespace washfast::cli
