// All that a person can read in a window, and which words of it are in ASCII letters still.
//
//     SeenText seen;
//     seen.read(window);                       // properties, models, menus, and what is painted
//     EXPECT_THAT(seen.leftIn(data), testing::IsEmpty());
#pragma once

#include "core/trial/notebook.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSpinBox>
#include <QAction>
#include <QBuffer>
#include <QComboBox>
#include <QDockWidget>
#include <QGroupBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPainter>
#include <QRegularExpression>
#include <QSet>
#include <QSvgGenerator>
#include <QTabBar>
#include <QTextDocument>
#include <QTextEdit>
#include <QWidget>
#include <QXmlStreamReader>
#include <set>

namespace washfast::i18n {

/// Words that are no text of the program: what the notebook holds, keys of the catalogue, units, and a short list.
class DataWords {
public:
    explicit DataWords(const QStringList& texts = {})
    {
        for (const auto& text : texts)
            add(text);
    }
    DataWords(const Notebook& notebook, const Catalogue& catalogue) { add(notebook, catalogue); }

    void add(const Notebook& notebook, const Catalogue& catalogue)
    {
        for (const auto entity : allEntities()) {
            const auto& table = notebook.table(entity);
            const auto& columns = catalogue.columns(entity);
            for (int row = 0; row < table.rows(); ++row)
                for (const auto& field : columns)
                    if (field.kind == Kind::Text)
                        if (const auto text = table.at(row, field.ordinal).text())
                            add(*text);
            for (const auto& field : columns)
                add(field.unit);
        }
        for (const auto& field : catalogue.printFields()) {
            add(field.unit);
            add(field.key); // as filters name it
        }
    }

    void add(const QString& text)
    {
        for (const auto& word : wordsOf(text))
            words_ << word;
    }
    [[nodiscard]] bool has(const QString& word) const { return words_.contains(word) || isFormula(word); }

    /// Runs of letters and figures with two ASCII letters together.
    static QStringList wordsOf(const QString& text)
    {
        static const QRegularExpression run(QStringLiteral("[A-Za-z0-9_]*[A-Za-z]{2}[A-Za-z0-9_]*"));
        QStringList words;
        for (auto matches = run.globalMatch(text); matches.hasNext();)
            words << matches.next().captured();
        return words;
    }

private:
    /// NaHCO3, CSV, UVA: elements and abbreviations.
    static bool isFormula(const QString& word)
    {
        static const QRegularExpression pattern(QStringLiteral("^(?:[A-Z][0-9]*|(?:Fe|Cl|Na|Mg|Ca)[0-9]*)+$"));
        return pattern.match(word).hasMatch();
    }

    QSet<QString> words_;
};

class SeenText {
public:
    /// Everything in this widget and what is in it, at present shown or not; painted texts only of what is shown.
    void read(QWidget& top)
    {
        readWidget(top);
        for (auto* widget : top.findChildren<QWidget*>())
            readWidget(*widget);
        for (auto* action : top.findChildren<QAction*>())
            readAction(*action, *top.metaObject());
        for (auto* model : top.findChildren<QAbstractItemModel*>())
            readModel(*model, QString::fromLatin1(model->metaObject()->className()));
        readPainted(top);
    }
    void readPainted(QWidget& top)
    {
        QBuffer buffer;
        buffer.open(QIODevice::WriteOnly);
        QSvgGenerator svg;
        svg.setOutputDevice(&buffer);
        svg.setSize(top.size());
        svg.setViewBox(QRect(QPoint(0, 0), top.size()));
        {
            QPainter painter(&svg);
            top.render(&painter);
        }
        readSvg(buffer.data(), QString::fromLatin1(top.metaObject()->className()) + QStringLiteral(" painted"));
    }
    void readSvg(const QByteArray& svg, const QString& where)
    {
        QXmlStreamReader xml(svg);
        while (!xml.atEnd())
            if (xml.readNext() == QXmlStreamReader::StartElement && xml.name() == QLatin1String("text"))
                add(where, xml.readElementText(QXmlStreamReader::IncludeChildElements));
    }
    void add(const QString& where, QString text)
    {
        if (text.isEmpty())
            return;
        ++texts_;
        if (Qt::mightBeRichText(text)) {
            QTextDocument document;
            document.setHtml(text);
            text = document.toPlainText();
        }
        seen_.insert({ where, text });
    }
    void readModel(const QAbstractItemModel& model, const QString& where, const QModelIndex& parent = {})
    {
        const int rows = std::min(model.rowCount(parent), 400);
        const int columns = std::min(model.columnCount(parent), 400);
        for (int column = 0; column < columns; ++column)
            for (const int role : { Qt::DisplayRole, Qt::ToolTipRole })
                add(where + QStringLiteral(" heading"), model.headerData(column, Qt::Horizontal, role).toString());
        for (int row = 0; row < rows; ++row) {
            for (const int role : { Qt::DisplayRole, Qt::ToolTipRole })
                add(where + QStringLiteral(" heading"), model.headerData(row, Qt::Vertical, role).toString());
            for (int column = 0; column < columns; ++column) {
                const auto index = model.index(row, column, parent);
                for (const int role :
                    { Qt::DisplayRole, Qt::ToolTipRole, Qt::WhatsThisRole, Qt::AccessibleTextRole, Qt::StatusTipRole })
                    add(where, index.data(role).toString());
                if (column == 0 && model.hasChildren(index))
                    readModel(model, where, index);
            }
        }
    }

    [[nodiscard]] int count() const { return texts_; }
    /// "where: text", a line each, of every text with a word in ASCII letters that is no data.
    [[nodiscard]] std::string leftIn(const DataWords& data) const
    {
        std::string left;
        for (const auto& [where, text] : seen_)
            for (const auto& word : DataWords::wordsOf(withoutPatterns(text)))
                if (!data.has(word)) {
                    left += (where + QStringLiteral(": ") + text.simplified() + QStringLiteral("  <<") + word
                        + QStringLiteral(">>\n"))
                                .toStdString();
                    break;
                }
        return left;
    }

private:
    void readWidget(QWidget& widget)
    {
        const auto where = QString::fromLatin1(widget.metaObject()->className());
        for (const char* property : { "text", "title", "toolTip", "statusTip", "whatsThis", "placeholderText",
                 "accessibleName", "accessibleDescription", "prefix", "suffix", "specialValueText", "plainText" })
            if (const auto value = widget.property(property); value.metaType().id() == QMetaType::QString)
                add(where + QLatin1Char(' ') + QLatin1String(property), value.toString());
        if (widget.isWindow())
            add(where + QStringLiteral(" window title"), widget.windowTitle());
        if (const auto* box = qobject_cast<QComboBox*>(&widget))
            readModel(*box->model(), where + QStringLiteral(" choice"));
        if (const auto* tabs = qobject_cast<QTabBar*>(&widget))
            for (int i = 0; i < tabs->count(); ++i) {
                add(where, tabs->tabText(i));
                add(where, tabs->tabToolTip(i));
            }
        if (const auto* view = qobject_cast<QAbstractItemView*>(&widget);
            view && view->model() && !qobject_cast<QHeaderView*>(&widget))
            readModel(*view->model(), where + QStringLiteral(" item"));
        for (auto* action : widget.actions())
            readAction(*action, *widget.metaObject());
    }
    void readAction(const QAction& action, const QMetaObject& of)
    {
        const auto where = QString::fromLatin1(of.className()) + QStringLiteral(" action");
        for (const auto& text : { action.text(), action.toolTip(), action.statusTip(), action.whatsThis() })
            add(where, text);
    }
    /// Without the patterns of file filters.
    static QString withoutPatterns(QString text)
    {
        static const QRegularExpression pattern(QStringLiteral("\\*\\.[A-Za-z0-9]+"));
        return text.remove(pattern).remove(QLatin1Char('&'));
    }

    int texts_ = 0;
    std::set<std::pair<QString, QString>> seen_;
};

} // namespace washfast::i18n
