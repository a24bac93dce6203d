from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("records", "0004_own_library"),
    ]

    operations = [
        migrations.AddField(
            model_name="child",
            name="band",
            field=models.JSONField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="child",
            name="ill",
            field=models.JSONField(default=list),
        ),
        migrations.AddField(
            model_name="child",
            name="loss_answers",
            field=models.JSONField(default=list),
        ),
    ]
