"""Handing letters to a mail server that is not ours."""

from dataclasses import replace
from datetime import UTC, datetime
from email import policy
from email.parser import BytesParser

import pytest

from pantry.mail.letters import Attached, Letter
from pantry.mail.mail_server import MailServer, NotSent
from pantry.refusals import UnreadableInput
from pantry.rules.mail_addresses import address
from tests.mail.smtp_server import PASSWORD, USER, mail_server

SENT_AT = datetime(2027, 3, 8, 7, tzinfo=UTC)
LETTER = Letter(
    "alert-1",
    "mara@larkfield.example",
    "Order by 17:00 – Hill Dairy",
    "3 × crate of 6 × 2 l Whole milk\n.\nfor Friday’s dinner",
)


@pytest.fixture
def posted(tmp_path):
    with mail_server(tmp_path) as found:
        yield found


def read(envelope):
    return BytesParser(policy=policy.default).parsebytes(envelope.original_content)


def test_a_letter_arrives_as_it_was_written_over_an_encrypted_connection(posted):
    box, server = posted
    pdf = Attached("order.pdf", "application/pdf", b"%PDF-1.7\r\n.\r\n")
    server.hand_over(replace(LETTER, attached=(pdf,), reply_to="cato@larkfield.example"), SENT_AT)
    (envelope,) = box.letters
    assert envelope.rcpt_tos == [LETTER.to]
    came = read(envelope)
    assert came["Message-ID"] == "<alert-1@chooseby.invalid>"
    assert came["Date"].datetime == SENT_AT
    assert came["Subject"] == LETTER.subject
    assert (came["From"], came["Reply-To"]) == (USER, "cato@larkfield.example")
    assert came.get_body().get_content().splitlines() == LETTER.text.splitlines()
    (file,) = came.iter_attachments()
    assert (file.get_filename(), file.get_content_type()) == ("order.pdf", "application/pdf")
    assert file.get_content() == pdf.content


def test_a_wrong_password_is_said_and_not_tried_again(posted):
    box, server = posted
    with pytest.raises(NotSent) as refused:
        replace(server, password="wrong").hand_over(LETTER, SENT_AT)
    assert refused.value.again is False
    assert box.letters == []
    assert PASSWORD not in repr(server)
    assert "wrong" not in str(refused.value)


def test_a_certificate_that_nobody_vouches_for_gets_no_password(posted):
    box, server = posted
    with pytest.raises(NotSent) as refused:
        replace(server, trust=None).hand_over(LETTER, SENT_AT)
    assert refused.value.again is False
    assert box.letters == []


@pytest.mark.parametrize(
    ("answer", "again"),
    [
        # RFC 5321, section 4.2.1: 4yz is for now, 5yz for good
        ("451 try later", True),
        ("552 too large", False),
    ],
)
def test_RFC_5321_what_is_refused_for_now_goes_again_and_what_is_for_good_does_not(
    posted, answer, again
):
    box, server = posted
    box.answers.append(answer)
    with pytest.raises(NotSent) as refused:
        server.hand_over(LETTER, SENT_AT)
    assert refused.value.again is again
    assert answer[4:] in refused.value.problem
    server.hand_over(LETTER, SENT_AT)
    assert len(box.letters) == 1


def test_a_mailbox_that_nobody_has_is_not_tried_again(posted):
    _, server = posted
    with pytest.raises(NotSent) as refused:
        server.hand_over(replace(LETTER, to="nobody@larkfield.example"), SENT_AT)
    assert refused.value.again is False


def test_a_server_that_is_not_there_is_tried_again(posted):
    _, server = posted
    with pytest.raises(NotSent) as refused:
        replace(server, port=1).hand_over(LETTER, SENT_AT)
    assert refused.value.again is True


@pytest.mark.parametrize(
    "written",
    [
        "",
        "mara",
        "a@b, c@d.example",
        "Mara <mara@x.example>",
        "mara@x.example\r\nBcc: all@x.example",
    ],
)
def test_an_address_is_one_mailbox_and_nothing_else(written):
    with pytest.raises(UnreadableInput) as refused:
        address(written)
    assert refused.value.code == "address_unreadable"


def test_a_subject_is_one_line(posted):
    box, server = posted
    server.hand_over(replace(LETTER, subject="Order\r\nBcc: all@x.example"), SENT_AT)
    came = read(box.letters[0])
    assert came["Bcc"] is None
    assert came["Subject"] == "Order Bcc: all@x.example"


def test_without_a_host_the_house_sends_no_mail():
    assert MailServer.of({}) is None


def test_the_environment_says_where_and_as_whom():
    said = {"CHOOSEBY_SMTP_HOST": "mail.larkfield.example", "CHOOSEBY_SMTP_USER": USER}
    found = MailServer.of(said | {"CHOOSEBY_SMTP_PASSWORD": PASSWORD})
    assert found == MailServer("mail.larkfield.example", 587, USER, "starttls", USER, PASSWORD)
    found = MailServer.of(said | {"CHOOSEBY_SMTP_ENCRYPTION": "tls"})
    assert (found.port, found.encryption) == (465, "tls")


@pytest.mark.parametrize(
    "more",
    [
        {"CHOOSEBY_SMTP_ENCRYPTION": "ssl"},
        {"CHOOSEBY_SMTP_ENCRYPTION": "none"},
        {"CHOOSEBY_SMTP_PORT": "0"},
        {"CHOOSEBY_SMTP_PORT": "mail"},
        {"CHOOSEBY_SMTP_SENDER": "the house"},
    ],
)
def test_settings_that_cannot_be_used_are_refused(more):
    said = {"CHOOSEBY_SMTP_HOST": "mail.larkfield.example", "CHOOSEBY_SMTP_SENDER": USER}
    with pytest.raises(UnreadableInput) as refused:
        MailServer.of(said | more)
    assert refused.value.code == "mail_settings"
