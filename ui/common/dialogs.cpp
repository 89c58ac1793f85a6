#include "ui/common/dialogs.h"

#include "ui/common/file_box.h"

#include <QFileInfo>
#include <QInputDialog>
#include <QMessageBox>
#include <QPushButton>
#include <QRegularExpression>

namespace washfast::ui {

namespace {

void show(QWidget* parent, QMessageBox::Icon icon, const QString& title, const QString& text, const QString& detail)
{
    QMessageBox box(icon, title, text, QMessageBox::Ok, parent);
    box.setTextFormat(Qt::PlainText);
    box.setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    if (!detail.isEmpty())
        box.setInformativeText(detail);
    box.exec();
}

} // namespace

QString withEnding(const QString& path, const QString& filter)
{
    if (path.isEmpty() || !QFileInfo(path).suffix().isEmpty())
        return path;
    static const QRegularExpression ending(QStringLiteral("\\*\\.([A-Za-z0-9]+)"));
    const auto match = ending.match(filter);
    return match.hasMatch() ? path + QLatin1Char('.') + match.captured(1) : path;
}

std::optional<QString> QtDialogs::openFile(
    QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters)
{
    FileBox box(parent, title, startPath, filters);
    box.setFileMode(QFileDialog::ExistingFile);
    return box.exec() == QDialog::Accepted ? std::optional(box.selectedFiles().value(0)) : std::nullopt;
}

QStringList QtDialogs::openFiles(
    QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters)
{
    FileBox box(parent, title, startPath, filters);
    box.setFileMode(QFileDialog::ExistingFiles);
    return box.exec() == QDialog::Accepted ? box.selectedFiles() : QStringList();
}

std::optional<QString> QtDialogs::saveFile(
    QWidget* parent, const QString& title, const QString& suggestedPath, const QStringList& filters)
{
    FileBox dialog(parent, title, suggestedPath, filters);
    dialog.setAcceptMode(QFileDialog::AcceptSave);
    // The dialog adds the ending itself, so that its question about an existing file is about the right file.
    const auto followFilter = [&dialog](const QString& filter) {
        dialog.setDefaultSuffix(QFileInfo(withEnding(QStringLiteral("x"), filter)).suffix());
    };
    QObject::connect(&dialog, &QFileDialog::filterSelected, &dialog, followFilter);
    for (const QString& filter : filters) {
        if (filter.contains(QLatin1String("*.") + QFileInfo(suggestedPath).suffix())) {
            dialog.selectNameFilter(filter);
            break;
        }
    }
    followFilter(dialog.selectedNameFilter());
    if (dialog.exec() != QDialog::Accepted || dialog.selectedFiles().isEmpty())
        return std::nullopt;
    return dialog.selectedFiles().constFirst();
}

std::optional<int> QtDialogs::question(
    QWidget* parent, const QString& title, const QString& text, const QStringList& answers)
{
    QMessageBox box(QMessageBox::Question, title, text, QMessageBox::NoButton, parent);
    box.setTextFormat(Qt::PlainText);
    QList<QAbstractButton*> buttons;
    for (const QString& answer : answers)
        buttons.append(box.addButton(answer, QMessageBox::ActionRole));
    // A hidden button of the role "reject" lets Escape and the window's close button work.
    QPushButton* turnBack = box.addButton(QMessageBox::Cancel);
    turnBack->hide();
    box.setEscapeButton(turnBack);
    if (!buttons.isEmpty())
        box.setDefaultButton(qobject_cast<QPushButton*>(buttons.constFirst()));
    box.exec();
    const auto index = buttons.indexOf(box.clickedButton());
    return index < 0 ? std::nullopt : std::optional(static_cast<int>(index));
}

std::optional<QString> QtDialogs::askText(
    QWidget* parent, const QString& title, const QString& label, const QString& initial)
{
    bool accepted = false;
    const QString text = QInputDialog::getText(parent, title, label, QLineEdit::Normal, initial, &accepted);
    return accepted ? std::optional(text) : std::nullopt;
}

void QtDialogs::message(QWidget* parent, const QString& title, const QString& text)
{
    show(parent, QMessageBox::Information, title, text, {});
}

void QtDialogs::error(QWidget* parent, const QString& title, const QString& text, const QString& detail)
{
    show(parent, QMessageBox::Warning, title, text, detail);
}

} // namespace washfast::ui
