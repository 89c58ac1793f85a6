#include "app/cli/cli.h"

#include "app/cli/verb.h"
#include "app/cli/words.h"

#include <QFile>
#include <QFileInfo>
#include <algorithm>

namespace washfast::cli {

namespace {

const Verb* findVerb(const QString& name)
{
    const auto found = std::find_if(
        verbs().begin(), verbs().end(), [&](const Verb& verb) { return name == QLatin1String(verb.name); });
    return found == verbs().end() ? nullptr : &*found;
}

QString usage(const Verb& verb)
{
    QString text = QStringLiteral("washfast %1").arg(QLatin1String(verb.name));
    for (const char* file : verb.shape.files)
        text += QLatin1Char(' ') + QString::fromLatin1(file);
    return verb.shape.options.empty() ? text : Words::tr("%1 [options]").arg(text);
}

QString optionText(const Option& option)
{
    return option.value ? QStringLiteral("%1 %2").arg(QLatin1String(option.name), QString::fromLatin1(option.value))
                        : QString::fromLatin1(option.name);
}

int helpOn(const Verb& verb, const Output& output)
{
    output.line(usage(verb));
    output.line(Words::tr(verb.summary));
    output.line({});
    qsizetype width = 6;
    for (const auto& option : verb.shape.options)
        width = std::max(width, optionText(option).size());
    for (const auto& option : verb.shape.options)
        output.line(QStringLiteral("  %1  %2").arg(optionText(option).leftJustified(width), Words::tr(option.help)));
    output.line(QStringLiteral("  %1  %2").arg(QStringLiteral("--help").leftJustified(width), Words::tr("shows this")));
    return done;
}

int help(const Output& output)
{
    output.line(Words::tr("washfast [NOTEBOOK]            opens the window"));
    qsizetype width = 0;
    for (const auto& verb : verbs())
        width = std::max(width, qsizetype(qstrlen(verb.name)));
    for (const auto& verb : verbs())
        output.line(QStringLiteral("washfast %1 ...  %2")
                        .arg(QString::fromLatin1(verb.name).leftJustified(width), Words::tr(verb.summary)));
    output.line({});
    output.line(Words::tr(
        "washfast VERB --help says more. With --json a verb prints one JSON object. The exit status is 0 when it was "
        "done, 1 when "
        "it could not be done, 2 when the words were wrong."));
    return done;
}

/// The bytes with everything that is not ASCII written as \xE9.
QString escaped(const QByteArray& bytes)
{
    QString text;
    for (const char byte : bytes) {
        const auto code = static_cast<unsigned char>(byte);
        text += code >= 0x20 && code < 0x7f
            ? QString(QLatin1Char(byte))
            : QStringLiteral("\\x%1").arg(QString::number(code, 16).toUpper().rightJustified(2, QLatin1Char('0')));
    }
    return text;
}

bool isNotebookPath(const QString& word)
{
    return QFileInfo::exists(word) || word.endsWith(QLatin1String(".washfast"));
}

} // namespace

const std::vector<Verb>& verbs()
{
    static const std::vector<Verb> all { demoVerb(), importVerb(), listVerb(), causesVerb(), nextVerb(), exportVerb(),
        mergeVerb(), checkVerb(), sunVerb(), mixVerb(), densityVerb(), curveVerb() };
    return all;
}

Result<QStringList> wordsOf(int argc, const char* const* argv)
{
    QStringList words;
    for (int i = 1; i < argc; ++i) {
        const QByteArray bytes(argv[i]);
        const QString word = QFile::decodeName(bytes);
        if (QFile::encodeName(word) != bytes)
            return Error { Trouble::BadInput,
                Words::tr("“%1” is not UTF-8, so no file can be found by it. Give the file a name in UTF-8.")
                    .arg(escaped(bytes)),
                {} };
        words << word;
    }
    return words;
}

bool isForCommandLine(const QStringList& words)
{
    if (words.isEmpty())
        return false;
    if (findVerb(words.front()) || words.front().startsWith(QLatin1Char('-')) || !isNotebookPath(words.front()))
        return true;
    const bool window_option
        = words.size() > 1 && words[1].startsWith(QLatin1Char('-')) && !words[1].startsWith(QLatin1String("--"));
    return words.size() > 1 && !window_option;
}

bool needsFonts(const QStringList& words)
{
    return words.value(0) == QLatin1String("export")
        && std::any_of(words.begin() + 1, words.end(), [](const QString& word) {
               return word.endsWith(QLatin1String(".pdf"), Qt::CaseInsensitive)
                   || word.section(QLatin1Char('='), -1).compare(QLatin1String("pdf"), Qt::CaseInsensitive) == 0;
           });
}

namespace {

int answer(const QStringList& words, const Output& output)
{
    const QString first = words.value(0);
    if (first == QLatin1String("--help") || first == QLatin1String("-h"))
        return help(output);
    if (first == QLatin1String("--version")) {
        output.line(QStringLiteral("washfast " WASHFAST_VERSION));
        return done;
    }
    const auto* verb = findVerb(first);
    if (!verb)
        return output.misuse(
            Words::tr("“%1” is neither a verb nor a notebook. washfast --help lists the verbs.").arg(first));
    const QStringList rest = words.mid(1);
    if (rest.contains(QStringLiteral("--help")) || rest.contains(QStringLiteral("-h")))
        return helpOn(*verb, output);
    const auto arguments = readArguments(verb->shape, rest);
    if (!arguments)
        return output.misuse(arguments.error().says + QLatin1Char('\n') + Words::tr("Usage: %1").arg(usage(*verb)));
    return verb->run(*arguments, output);
}

} // namespace

int run(const QStringList& words)
{
    const Output output;
    return output.finish(answer(words, output));
}

} // namespace washfast::cli
