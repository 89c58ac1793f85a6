// What the program asks the person, behind an interface, so that a test can answer without a window.
#pragma once

#include <QString>
#include <QStringList>
#include <optional>

class QWidget;

namespace washfast::ui {

class Dialogs {
public:
    Dialogs() = default;
    virtual ~Dialogs() = default;
    Dialogs(const Dialogs&) = delete;
    Dialogs& operator=(const Dialogs&) = delete;

    // File names are paths. `filters` are written as "Pictures (*.png *.jpg)". Nothing: the person turned back.
    [[nodiscard]] virtual std::optional<QString> openFile(
        QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters)
        = 0;
    // Empty: the person turned back.
    [[nodiscard]] virtual QStringList openFiles(
        QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters)
        = 0;
    // Asks before an existing file is replaced; adds the ending of the chosen filter when none was typed.
    [[nodiscard]] virtual std::optional<QString> saveFile(
        QWidget* parent, const QString& title, const QString& suggestedPath, const QStringList& filters)
        = 0;
    // Answers are what the buttons say, best as verbs ("Remove", "Keep"); the first is the one that Enter takes.
    // Gives the index of the answer; nothing when the person pressed Escape or closed the window.
    [[nodiscard]] virtual std::optional<int> question(
        QWidget* parent, const QString& title, const QString& text, const QStringList& answers)
        = 0;
    // One line of text; nothing: the person turned back.
    [[nodiscard]] virtual std::optional<QString> askText(
        QWidget* parent, const QString& title, const QString& label, const QString& initial)
        = 0;
    virtual void message(QWidget* parent, const QString& title, const QString& text) = 0;
    // `detail` is what a helper would want to read; it may be empty.
    virtual void error(QWidget* parent, const QString& title, const QString& text, const QString& detail) = 0;
};

class QtDialogs final : public Dialogs {
public:
    std::optional<QString> openFile(
        QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters) override;
    QStringList openFiles(
        QWidget* parent, const QString& title, const QString& startPath, const QStringList& filters) override;
    std::optional<QString> saveFile(
        QWidget* parent, const QString& title, const QString& suggestedPath, const QStringList& filters) override;
    std::optional<int> question(
        QWidget* parent, const QString& title, const QString& text, const QStringList& answers) override;
    std::optional<QString> askText(
        QWidget* parent, const QString& title, const QString& label, const QString& initial) override;
    void message(QWidget* parent, const QString& title, const QString& text) override;
    void error(QWidget* parent, const QString& title, const QString& text, const QString& detail) override;
};

// The path with the first ending of "Pictures (*.png *.jpg)" added when it has no ending of its own.
[[nodiscard]] QString withEnding(const QString& path, const QString& filter);

} // namespace washfast::ui
