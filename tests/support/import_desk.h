// Imports a table into a notebook of its own, for tests.
//
//     ImportDesk desk;
//     desk.take("print_code,coat_volume_ml\nA1,0.6\n");
//     EXPECT_EQ(desk.number("A1", "coat_volume_ml"), 0.6);
#pragma once

#include "core/exchange/import.h"
#include "core/trial/print_reader.h"
#include "tests/support/scratch_notebook.h"

namespace washfast::test {

class ImportDesk {
public:
    explicit ImportDesk(Catalogue catalogue = standardCatalogue(), const store::OpenOptions& how = {})
        : scratch_(std::move(catalogue))
        , file_(scratch_.open(how))
    {
        options.zone = QTimeZone("Europe/Berlin");
        reread();
    }

    [[nodiscard]] exchange::ImportPreview look(const QByteArray& bytes) const
    {
        const auto table = exchange::readDelimited(bytes);
        const auto mapping = exchange::mapHeadings(table.header, scratch_.catalogue(), headings);
        return exchange::previewImport(table, mapping, *notebook_, options);
    }
    [[nodiscard]] Result<exchange::ImportReport> take(const QByteArray& bytes, bool keep_good = false)
    {
        const auto report = exchange::applyImport(*file_, look(bytes), keep_good, QStringLiteral("Import"));
        reread();
        return report;
    }
    /// What a preview refuses, a sentence each.
    [[nodiscard]] QStringList refused(const QByteArray& bytes) const
    {
        QStringList all;
        for (const auto& refusal : look(bytes).refusals())
            all << refusal.sentence();
        return all;
    }

    void reread() { notebook_ = std::make_unique<Notebook>(must(file_->read())); }
    [[nodiscard]] const Notebook& notebook() const { return *notebook_; }
    [[nodiscard]] const Catalogue& catalogue() const { return scratch_.catalogue(); }
    [[nodiscard]] store::NotebookFile& file() { return *file_; }
    [[nodiscard]] QString inFolder(const char* name) const { return scratch_.inFolder(name); }
    [[nodiscard]] int prints() const { return notebook_->prints().rows(); }

    [[nodiscard]] Known get(const char* code, const char* key) const
    {
        const auto id = notebook_->byName(Entity::Print, text(code));
        EXPECT_TRUE(id) << "no print " << code;
        EXPECT_GE(catalogue().printField(text(key)), 0) << "no print field " << key;
        return id ? PrintReader(*notebook_).get(notebook_->prints().find(*id), text(key)) : Known {};
    }
    [[nodiscard]] std::optional<double> number(const char* code, const char* key) const
    {
        return get(code, key).number();
    }
    [[nodiscard]] QString iso(const char* code, const char* key) const
    {
        const auto time = get(code, key).time();
        return time ? time->toIso() : QString();
    }
    [[nodiscard]] QString word(const char* code, const char* key) const
    {
        return get(code, key).text().value_or(QString());
    }

    exchange::HeadingChoices headings;
    exchange::ImportOptions options;

private:
    ScratchNotebook scratch_;
    std::unique_ptr<store::NotebookFile> file_;
    std::unique_ptr<Notebook> notebook_;
};

} // namespace washfast::test
