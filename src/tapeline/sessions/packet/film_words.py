"""The sentences of a recorded session that are the same for every film, in both languages.

At most twelve words a sentence. The Spanish is still to be read by a person.
"""

from __future__ import annotations

from dataclasses import dataclass

from tapeline.caseload.people import Language


@dataclass(frozen=True, kw_only=True)
class FilmWords:
    """What is said around the games."""

    language: Language
    title: str
    totals: str
    opening: str
    hello: tuple[str, ...]
    need: str
    either: str
    stop: tuple[str, ...]
    intro: dict[str, str]
    name: str
    at_speed: str
    slowly: str
    easier: str
    grown_up: str
    many: str
    page: str
    pause: str
    course_name: str
    course: str
    one_round: str
    rounds: str
    ending: str
    tell: tuple[str, ...]
    ring: str
    to_be_read: str
    has_english: str


ENGLISH = FilmWords(
    language="en",
    title="What to say in the film",
    totals="Watching: about {watch} min. Doing: about {do} min.",
    opening="Have ready",
    hello=("Hello. Get your page.", "Put the things on your page next to you.", "Clear the floor."),
    need="You need: {things}.",
    either=" or ",
    stop=(
        "Stop if it hurts.",
        "Stop if your child looks pale or dizzy.",
        "Stop if your child says or shows stop.",
        "Your page says more on when to stop.",
    ),
    intro={
        "arrival": "We begin with hello.",
        "warm_up": "Now we warm up.",
        "revisit": "You know this one. We do it again.",
        "practice": "Now the main game.",
        "fine_motor": "Now a game for the hands.",
        "cool_down": "Now we slow down.",
        "closing": "Last, we say goodbye.",
    },
    name="{name}.",
    at_speed="Watch it once.",
    slowly="Now slowly.",
    easier="If that is too hard: {way}",
    grown_up="For the grown-up.",
    many="Do this: {amount}.",
    page="Your page says how many.",
    pause="Pause here. Play. Then come back.",
    course_name="The whole course",
    course="Now all of it, one after the other.",
    one_round="Go round once.",
    rounds="Go round {n} times.",
    ending="How to tell me",
    tell=(
        "Tell me three things.",
        "On how many days did you do it?",
        "Was it too easy, about right, too hard, or not fun?",
        "Did anything hurt or scare your child?",
    ),
    ring="You can ring {ring}.",
    to_be_read="",
    has_english="",
)
SPANISH = FilmWords(
    language="es",
    title="Qué se dice en el video",
    totals="Para mirar: unos {watch} min. Para jugar: unos {do} min.",
    opening="Para empezar",
    hello=("Hola. Busca tu hoja.", "Pon cerca las cosas de tu hoja.", "Despeja el suelo."),
    need="Hace falta: {things}.",
    either=" o ",
    stop=(
        "Detente si duele.",
        "Detente si el niño está pálido o mareado.",
        "Detente si el niño dice o muestra que pare.",
        "Tu hoja dice más sobre cuándo parar.",
    ),
    intro={
        "arrival": "Empezamos con un saludo.",
        "warm_up": "Ahora calentamos el cuerpo.",
        "revisit": "Este ya lo conoces. Lo hacemos otra vez.",
        "practice": "Ahora el juego principal.",
        "fine_motor": "Ahora un juego para las manos.",
        "cool_down": "Ahora vamos más lento.",
        "closing": "Al final, nos despedimos.",
    },
    name="{name}.",
    at_speed="Míralo una vez.",
    slowly="Ahora lento.",
    easier="Si es muy difícil: {way}",
    grown_up="Para el adulto.",
    many="Haz esto: {amount}.",
    page="Tu hoja dice cuántas veces.",
    pause="Pon pausa. Juega. Luego vuelve.",
    course_name="Todo el recorrido",
    course="Ahora todo, uno tras otro.",
    one_round="Haz una ronda.",
    rounds="Haz {n} rondas.",
    ending="Cómo me cuentas",
    tell=(
        "Cuéntame tres cosas.",
        "¿Cuántos días lo hiciste?",
        "¿Fue muy fácil, justo, muy difícil o aburrido?",
        "¿Algo dolió o dio miedo?",
    ),
    ring="Puedes llamar a: {ring}.",
    to_be_read="Una persona tiene que leer todavía este texto.",
    has_english="Algunos juegos están en inglés.",
)
WORDS: dict[Language, FilmWords] = {"en": ENGLISH, "es": SPANISH}
