"""`trust`: the house's own authority, and how a phone comes to trust it."""

import click

from pantry import world
from pantry.http.trust_page import in_groups
from pantry.refusals import MissingFact, declare
from pantry.terminal.printing import json_option, print_json
from pantry.terminal.settings import Settings, from_environment
from pantry.trust.kept import KeptTrust
from pantry.trust.names import HouseNames, read_names

NAMES_MISSING = declare(
    "names_missing", "CHOOSEBY_HTTPS_NAMES does not say how to reach the house."
)


@click.command("trust")
@click.option("--anew", is_flag=True, help="Make a new authority; every phone must trust it again.")
@json_option
def trust_command(*, anew: bool, as_json: bool) -> None:
    """Show the authority of the house, to compare with what a phone shows; makes it if need be.

    A phone gives its camera, and works without signal, only over HTTPS with a certificate that it
    trusts. CHOOSEBY_HTTPS_NAMES says under which names and addresses the house is reached.
    """
    settings = from_environment()
    names = _names(settings)
    kept = KeptTrust(settings.data)
    now = world.now()
    authority = kept.make_authority_anew(names, now) if anew else kept.authority(names, now)
    if as_json:
        print_json(
            {
                "fingerprint": authority.fingerprint,
                "ends": authority.ends.date().isoformat(),
                "names": list(names.hosts),
                "certificate": str(kept.authority_file),
                "key": str(kept.authority_key_file),
            }
        )
        return
    click.echo("The authority of this house, by its SHA-256 fingerprint:")
    click.echo(f"    {in_groups(authority.fingerprint)}")
    click.echo(
        f"It vouches for {', '.join(names.hosts)} and is good until {authority.ends:%Y-%m-%d}."
    )
    click.echo(f"Its certificate, which every phone is to trust: {kept.authority_file}")
    click.echo(f"Its key, which nobody else may have: {kept.authority_key_file}")
    click.echo("Keep a copy of both in a safe place: they are in no backup of the database.")


def _names(settings: Settings) -> HouseNames:
    names = read_names(settings.https_names)
    if not names:
        raise MissingFact(
            NAMES_MISSING,
            "CHOOSEBY_HTTPS_NAMES does not say under which names the house is reached.",
            "Set it to what a phone is to open, such as pantry.home.arpa or 192.0.2.20.",
            field="CHOOSEBY_HTTPS_NAMES",
        )
    return names
