// Writes the texts that lupdate cannot find in the sources, because they are in JSON or reach Words::tr() as a value:
// the field catalogue, formulas, hazards, tables of names. It asks the program for all of them and keeps what is asked
// of the translation. The file it writes has one line a text for lupdate; resources/i18n/extract.sh runs it.
//
//     washfast_texts FILE.cpp
#include "app/cli/verb.h"
#include "app/cli/whole_catalogue.h"
#include "core/causes/published_signs.h"
#include "core/chemistry/bottle_labels.h"
#include "core/chemistry/hazards.h"
#include "core/chemistry/recipe.h"
#include "core/chemistry/substance.h"

#include <QCoreApplication>
#include <QSaveFile>
#include <QTranslator>
#include <cstdio>
#include <map>

namespace {

/// Keeps every text that is asked for, and translates none.
class Asked final : public QTranslator {
public:
    /// Context and source; true when the text has a number.
    using Texts = std::map<std::pair<QByteArray, QByteArray>, bool>;

    [[nodiscard]] bool isEmpty() const override { return false; }
    [[nodiscard]] QString translate(const char* context, const char* source, const char*, int n) const override
    {
        if (source && *source)
            texts_[{ QByteArray(context), QByteArray(source) }] |= n >= 0;
        return {};
    }
    [[nodiscard]] const Texts& texts() const { return texts_; }

private:
    mutable Texts texts_;
};

/// As a C++ literal.
QByteArray literal(const QByteArray& text)
{
    QByteArray quoted = text;
    quoted.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n").replace('\t', "\\t");
    return '"' + quoted + '"';
}

void askForEverything()
{
    using namespace washfast;
    (void)wholeCatalogue();
    for (const auto entity : allEntities())
        (void)entityLabel(entity);
    (void)chemistry::recipes();
    (void)chemistry::allHazards();
    (void)chemistry::allCautions();
    (void)chemistry::statementSource();
    QStringList codes;
    for (const auto& code : chemistry::statementCodes()) {
        (void)chemistry::statementText(code);
        codes << code;
    }
    for (const auto& code : codes)
        (void)chemistry::pictogramsFor({ code });
    (void)chemistry::knownSubstances();
    (void)chemistry::labelSheets();
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    if (argc != 2) {
        std::fprintf(stderr, "usage: washfast_texts FILE.cpp\n");
        return 2;
    }
    Asked asked;
    QCoreApplication::installTranslator(&asked);
    askForEverything();
    QCoreApplication::removeTranslator(&asked);

    QByteArray lines = "// Made by washfast_texts for lupdate.\n";
    for (const auto& [text, plural] : asked.texts())
        lines += (plural ? "QT_TRANSLATE_N_NOOP(" : "QT_TRANSLATE_NOOP(") + literal(text.first) + ", "
            + literal(text.second) + ");\n";
    QSaveFile file(QString::fromLocal8Bit(argv[1]));
    if (!file.open(QIODevice::WriteOnly) || file.write(lines) != lines.size() || !file.commit()) {
        std::fprintf(stderr, "%s: %s\n", argv[1], qPrintable(file.errorString()));
        return 1;
    }
    return 0;
}
