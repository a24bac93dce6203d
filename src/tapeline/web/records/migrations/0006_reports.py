import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("records", "0005_band_and_losses"),
    ]

    operations = [
        migrations.CreateModel(
            name="KeptReport",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.CharField(max_length=80, unique=True)),
                ("first", models.DateField()),
                ("last", models.DateField()),
                ("parts", models.JSONField(default=list)),
                ("made_from", models.CharField(blank=True, max_length=80)),
                ("signed_at", models.CharField(blank=True, max_length=40, null=True)),
                ("signed_by", models.CharField(blank=True, max_length=200)),
                (
                    "child",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="reports",
                        to="records.child",
                    ),
                ),
            ],
            options={
                "ordering": ("pk",),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("first__lte", models.F("last"))),
                        name="report_begins_before_it_ends",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("signed_at", None),
                            models.Q(("signed_by", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="signed_report_has_a_name",
                    ),
                ],
            },
        ),
    ]
