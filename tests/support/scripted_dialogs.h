// Dialogs that a test answers ahead of time and reads back afterwards.
//
//     ScriptedDialogs dialogs;
//     dialogs.willSave(folder.filePath("curve.svg"));
//     view.saveChart();
//     EXPECT_EQ(dialogs.titles(), QStringList { "Save the chart" });
//
// A question without an answer waiting is a failure of the test and is answered as if the person had turned back.
#pragma once

#include "ui/common/dialogs.h"

#include <deque>
#include <gtest/gtest.h>
#include <vector>

namespace washfast::test {

class ScriptedDialogs final : public ui::Dialogs {
public:
    struct Shown {
        QString kind; // open, save, question, text, message, error
        QString title;
        QString text;
        QStringList choices; // filters or answers
        QString detail;
    };

    void willOpen(const QString& path) { opens_.push_back(QStringList { path }); }
    void willOpen(const QStringList& paths) { opens_.push_back(paths); }
    void willSave(const std::optional<QString>& path) { saves_.push_back(path); }
    void willAnswer(const std::optional<int>& answer) { answers_.push_back(answer); }
    void willType(const std::optional<QString>& text) { texts_.push_back(text); }
    // The person turns back from the next "open" or "save".
    void willTurnBackFromOpen() { opens_.push_back({}); }
    void willTurnBackFromSave() { saves_.push_back(std::nullopt); }

    [[nodiscard]] const std::vector<Shown>& shown() const { return shown_; }
    [[nodiscard]] QStringList titles() const
    {
        QStringList result;
        for (const Shown& one : shown_)
            result.append(one.title);
        return result;
    }
    // Texts of one kind, in order.
    [[nodiscard]] QStringList texts(const QString& kind) const
    {
        QStringList result;
        for (const Shown& one : shown_)
            if (one.kind == kind)
                result.append(one.text);
        return result;
    }
    [[nodiscard]] bool allUsed() const
    {
        return opens_.empty() && saves_.empty() && answers_.empty() && texts_.empty();
    }

    std::optional<QString> openFile(
        QWidget*, const QString& title, const QString& startPath, const QStringList& filters) override
    {
        shown_.push_back({ QStringLiteral("open"), title, startPath, filters, {} });
        const QStringList paths = take(opens_, title).value_or(QStringList());
        return paths.isEmpty() ? std::nullopt : std::optional(paths.constFirst());
    }
    QStringList openFiles(QWidget*, const QString& title, const QString& startPath, const QStringList& filters) override
    {
        shown_.push_back({ QStringLiteral("open"), title, startPath, filters, {} });
        return take(opens_, title).value_or(QStringList());
    }
    std::optional<QString> saveFile(
        QWidget*, const QString& title, const QString& suggestedPath, const QStringList& filters) override
    {
        shown_.push_back({ QStringLiteral("save"), title, suggestedPath, filters, {} });
        return take(saves_, title).value_or(std::nullopt);
    }
    std::optional<int> question(
        QWidget*, const QString& title, const QString& text, const QStringList& answers) override
    {
        shown_.push_back({ QStringLiteral("question"), title, text, answers, {} });
        const std::optional<int> answer = take(answers_, title).value_or(std::nullopt);
        if (answer && (*answer < 0 || *answer >= answers.size())) {
            ADD_FAILURE() << "answer " << *answer << " is not among the " << answers.size() << " offered";
            return std::nullopt;
        }
        return answer;
    }
    std::optional<QString> askText(
        QWidget*, const QString& title, const QString& label, const QString& initial) override
    {
        shown_.push_back({ QStringLiteral("text"), title, label, { initial }, {} });
        return take(texts_, title).value_or(std::nullopt);
    }
    void message(QWidget*, const QString& title, const QString& text) override
    {
        shown_.push_back({ QStringLiteral("message"), title, text, {}, {} });
    }
    void error(QWidget*, const QString& title, const QString& text, const QString& detail) override
    {
        shown_.push_back({ QStringLiteral("error"), title, text, {}, detail });
    }

private:
    template <typename T> static std::optional<T> take(std::deque<T>& waiting, const QString& title)
    {
        if (waiting.empty()) {
            ADD_FAILURE() << "nothing was scripted for \"" << title.toStdString() << "\"";
            return std::nullopt;
        }
        T next = waiting.front();
        waiting.pop_front();
        return next;
    }

    std::vector<Shown> shown_;
    std::deque<QStringList> opens_;
    std::deque<std::optional<QString>> saves_;
    std::deque<std::optional<int>> answers_;
    std::deque<std::optional<QString>> texts_;
};

} // namespace washfast::test
